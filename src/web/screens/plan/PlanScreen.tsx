import { Button, Text } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Cautions } from '../../ui/Cautions';
import { Empty } from '../../ui/Empty';
import { Loaded } from '../../ui/Loaded';
import { Screen } from '../../ui/Screen';
import { useLotsWithMass } from '../lots/lot-queries';
import { Offers } from './Offers';
import { PlanForm } from './PlanForm';
import type { Plan } from './plan-queries';

/** One request finds whole ways through the room; one tap books one of them. */
export function PlanScreen() {
  const { memberId } = useClub();
  const lots = useLotsWithMass('honey', memberId);
  const [plan, setPlan] = useState<Plan | null>(null);
  return (
    <Screen title={text.plan.title}>
      <Text className="soft">{text.plan.intro}</Text>
      <Loaded query={lots}>
        {(items) =>
          items.length === 0 ? (
            <Empty
              action={
                <Button component={Link} href="/lots/new">
                  {text.lots.bringIn}
                </Button>
              }
            >
              {text.plan.noHoney}
            </Empty>
          ) : (
            <PlanForm lots={items} onPlan={setPlan} />
          )
        }
      </Loaded>
      {plan !== null && <Offers key={plan.id} plan={plan} onPlan={setPlan} />}
      <Cautions />
    </Screen>
  );
}
