import { Button, Group, Stack, Text } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, api } from '../../api/client';
import { useClub } from '../../api/club';
import { text } from '../../text';
import { Chips } from '../../ui/Chips';
import { Copyable } from '../../ui/Copyable';
import { Failure } from '../../ui/Failure';
import { Qr } from '../../ui/Qr';
import { Sheet } from '../../ui/Sheet';
import type { Member } from './club-queries';

const words = text.club;

/** A link, and its QR code, with which somebody comes into the club. */
export function Invite() {
  const { clubId } = useClub();
  const [role, setRole] = useState<Member['role']>('member');
  const invite = useMutation({
    mutationFn: () =>
      answer(
        api.POST('/api/v1/clubs/{clubId}/invitations', {
          params: { path: { clubId } },
          body: { role },
        }),
      ),
  });
  const link = invite.data === undefined ? null : `${location.origin}/join/${invite.data.code}`;
  return (
    <Sheet title={words.invite}>
      <Stack>
        <Chips label={words.inviteAs} of={words.roles} value={role} onChange={setRole} />
        {invite.isError && <Failure error={invite.error} />}
        {link === null ? (
          <Group>
            <Button onClick={() => invite.mutate()} loading={invite.isPending}>
              {words.invite}
            </Button>
          </Group>
        ) : (
          <>
            <Text>{words.invitation}</Text>
            <Copyable value={link} />
            <Qr value={link} label={words.inviteQr} />
          </>
        )}
      </Stack>
    </Sheet>
  );
}
