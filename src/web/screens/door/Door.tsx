import { Button, Group, Text, Title } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { answer, api } from '../../api/client';
import { text } from '../../text';
import { SignIn } from './SignIn';
import { SignUp } from './SignUp';
import { TryDemo } from './TryDemo';

/** Whoever is not signed in stands here. */
export function Door() {
  const [isNew, setNew] = useState(false);
  const { data: installation } = useQuery({
    queryKey: ['installation'],
    queryFn: () => answer(api.GET('/api/v1/installation')),
  });
  const isEmpty = installation?.isEmpty === true && installation.demo === null;
  return (
    <div className="door">
      <div>
        <Title order={1}>{text.frame.name}</Title>
        <Text mt="sm" className="soft">
          {text.door.intro}
        </Text>
        {isEmpty && (
          <>
            <Text mt="lg">{text.door.empty}</Text>
            <Button mt="sm" onClick={() => setNew(true)}>
              {text.door.openFirst}
            </Button>
          </>
        )}
        {installation?.demo != null && <TryDemo demo={installation.demo} />}
        <Group mt="lg">
          <Button component={Link} href="/calculators" variant="default">
            {text.door.withoutAccount}
          </Button>
        </Group>
        {isEmpty && (
          <Text mt="lg" size="sm" className="soft">
            <strong>{text.door.demoTitle}</strong> {text.door.demoText}
          </Text>
        )}
      </div>
      <div className="sheet">
        {isNew ? <SignUp /> : <SignIn />}
        <Button mt="md" variant="subtle" onClick={() => setNew(!isNew)}>
          {isNew ? text.door.haveAccount : text.door.noAccount}
        </Button>
      </div>
    </div>
  );
}
