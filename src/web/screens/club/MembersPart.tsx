import { Button, Group } from '@mantine/core';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { answer, api, ifMatch } from '../../api/client';
import { useClub } from '../../api/club';
import { queries } from '../../api/queries';
import { forgetEverything } from '../../api/session';
import { text } from '../../text';
import { Failure } from '../../ui/Failure';
import { Loaded } from '../../ui/Loaded';
import { Sheet } from '../../ui/Sheet';
import { useMembers, type Member } from './club-queries';
import { Invite } from './Invite';

const words = text.club;

export function MembersPart() {
  const { role } = useClub();
  const members = useMembers();
  return (
    <>
      {role === 'steward' && <Invite />}
      <Sheet title={words.parts.members}>
        <Loaded query={members}>
          {(items) => (
            <ul className="rows">
              {items
                .filter(({ leftAt }) => leftAt === null)
                .map((member) => (
                  <li key={member.id} className="member">
                    <MemberRow member={member} />
                  </li>
                ))}
            </ul>
          )}
        </Loaded>
      </Sheet>
    </>
  );
}

function MemberRow({ member }: { member: Member }) {
  const club = useClub();
  const isMe = member.id === club.memberId;
  const isSteward = club.role === 'steward';
  const [isSure, setSure] = useState(false);
  const path = { clubId: club.clubId, id: member.id };
  const changed = async () => {
    await queries.invalidateQueries({ queryKey: ['members'] });
    if (isMe) await forgetEverything();
  };
  const asItStands = async () => ({
    path,
    header: await ifMatch(api.GET('/api/v1/clubs/{clubId}/members/{id}', { params: { path } })),
  });
  const changeRole = useMutation({
    mutationFn: async (role: Member['role']) =>
      answer(
        api.PATCH('/api/v1/clubs/{clubId}/members/{id}', {
          params: await asItStands(),
          body: { role },
        }),
      ),
    onSuccess: changed,
  });
  const remove = useMutation({
    mutationFn: async () =>
      answer(api.DELETE('/api/v1/clubs/{clubId}/members/{id}', { params: await asItStands() })),
    onSuccess: changed,
  });
  const other = member.role === 'steward' ? 'member' : 'steward';
  return (
    <>
      <div className="row">
        <span>
          <strong>{member.name}</strong>
          <span className="soft">{words.roles[member.role]}</span>
        </span>
      </div>
      {(isSteward || isMe) && (
        <details>
          <summary>{words.change}</summary>
          <Group gap="xs">
            {isSteward && (
              <Button variant="subtle" onClick={() => changeRole.mutate(other)}>
                {other === 'steward' ? words.makeSteward : words.makeMember}
              </Button>
            )}
            <Button
              variant={isSure ? 'filled' : 'subtle'}
              color="red"
              onClick={() => (isSure ? remove.mutate() : setSure(true))}
              onBlur={() => setSure(false)}
            >
              {isSure ? words.sure : isMe ? words.leave : words.letGo}
            </Button>
          </Group>
        </details>
      )}
      {changeRole.isError && <Failure error={changeRole.error} />}
      {remove.isError && <Failure error={remove.error} />}
    </>
  );
}
