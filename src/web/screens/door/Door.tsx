import { Button, Group, Text, Title } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import { text } from '../../text';
import { SignIn } from './SignIn';
import { SignUp } from './SignUp';

/** Whoever is not signed in stands here. */
export function Door() {
  const [isNew, setNew] = useState(false);
  return (
    <div className="door">
      <div>
        <Title order={1}>{text.frame.name}</Title>
        <Text mt="sm" className="soft">
          {text.door.intro}
        </Text>
        <Group mt="lg">
          <Button component={Link} href="/calculators" variant="default">
            {text.door.withoutAccount}
          </Button>
        </Group>
        <Text mt="lg" size="sm" className="soft">
          <strong>{text.door.demoTitle}</strong> {text.door.demoText}
        </Text>
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
