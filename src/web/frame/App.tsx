import { Button } from '@mantine/core';
import { usePrefetchQuery } from '@tanstack/react-query';
import { lazy, Suspense, useEffect, useMemo, type ComponentType, type ReactNode } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { ClubContext, useClubRecord } from '../api/club';
import { useMembership, useSession, type Membership } from '../api/session';
import { todayQuery } from '../screens/today/today-queries';
import { TodayScreen } from '../screens/today/TodayScreen';
import { text } from '../text';
import { Loaded } from '../ui/Loaded';
import { Screen } from '../ui/Screen';
import { fetchAhead } from './fetch-ahead';
import { Frame } from './Frame';

const loads: (() => Promise<unknown>)[] = [];

const Account = later(() => import('../screens/account/Account'), 'Account');
const Batches = later(() => import('../screens/batches/Batches'), 'Batches');
const BatchScreen = later(() => import('../screens/batches/BatchScreen'), 'BatchScreen');
const NewBatch = later(() => import('../screens/batches/NewBatch'), 'NewBatch');
const SettingTimes = later(
  () => import('../screens/setting-times/SettingTimesScreen'),
  'SettingTimesScreen',
);
const ClubScreen = later(() => import('../screens/club/ClubScreen'), 'ClubScreen');
const StationScreen = later(() => import('../screens/stations/StationScreen'), 'StationScreen');
const Lots = later(() => import('../screens/lots/Lots'), 'Lots');
const FitsScreen = later(() => import('../screens/seed/FitsScreen'), 'FitsScreen');
const HoldsScreen = later(() => import('../screens/holds/HoldsScreen'), 'HoldsScreen');
const LoansScreen = later(() => import('../screens/loans/LoansScreen'), 'LoansScreen');
const RecallScreen = later(() => import('../screens/holds/RecallScreen'), 'RecallScreen');
const LotScreen = later(() => import('../screens/lots/LotScreen'), 'LotScreen');
const BringIn = later(() => import('../screens/lots/BringIn'), 'BringIn');
const ProbeScreen = later(() => import('../screens/probes/ProbeScreen'), 'ProbeScreen');
const RoomScreen = later(() => import('../screens/room/RoomScreen'), 'RoomScreen');
const PlanScreen = later(() => import('../screens/plan/PlanScreen'), 'PlanScreen');
const Calculators = later(() => import('../screens/calculators/Calculators'), 'Calculators');
const Door = later(() => import('../screens/door/Door'), 'Door');
const FoundClub = later(() => import('../screens/door/FoundClub'), 'FoundClub');
const Invitation = later(() => import('../screens/door/Invitation'), 'Invitation');

async function readRoomAhead(clubId: string, timeZone: string): Promise<void> {
  const { readDiaryAhead } = await import('../screens/room/room-queries');
  await readDiaryAhead(clubId, timeZone);
}

/** Which screen stands at which address, and for whom. */
export function App() {
  return (
    <Frame>
      <Suspense fallback={null}>
        <Switch>
          <Route path="/calculators" component={Calculators} />
          <Route path="/calculators/:kind" component={Calculators} />
          <Route path="/join/:code" component={Invitation} />
          <Route component={SignedIn} />
        </Switch>
      </Suspense>
    </Frame>
  );
}

function SignedIn() {
  const session = useSession();
  const membership = useMembership();
  return (
    <Loaded query={session}>
      {(person) => {
        if (person === null) return <Door />;
        return (
          <Switch>
            <Route path="/account" component={Account} />
            <Route>{membership === null ? <FoundClub /> : <InClub as={membership} />}</Route>
          </Switch>
        );
      }}
    </Loaded>
  );
}

function InClub({ as }: { as: Membership }) {
  const [address] = useLocation();
  const club = useClubRecord(as.clubId);
  const timeZone = club.data?.timeZone ?? '';
  const seen = useMemo(() => ({ ...as, timeZone }), [as, timeZone]);
  useEffect(() => {
    if (timeZone !== '') fetchAhead([...loads, () => readRoomAhead(as.clubId, timeZone)]);
  }, [as.clubId, timeZone]);
  return (
    <>
      {address === '/' && <TodayAhead clubId={as.clubId} />}
      <Loaded query={club}>
        {() => (
          <ClubContext.Provider value={seen}>
            <Switch>
              <Route path="/" component={TodayScreen} />
              <Route path="/room" component={RoomScreen} />
              <Route path="/room/plan" component={PlanScreen} />
              <Route path="/batches" component={Batches} />
              <Route path="/batches/new" component={NewBatch} />
              <Route path="/batches/:id" component={BatchScreen} />
              <Route path="/setting-times" component={SettingTimes} />
              <Route path="/club" component={ClubScreen} />
              <Route path="/club/stations/:id" component={StationScreen} />
              <Route path="/club/:part" component={ClubScreen} />
              <Route path="/probes/:id" component={ProbeScreen} />
              <Route path="/seed" component={Lots} />
              <Route path="/seed/fits" component={FitsScreen} />
              <Route path="/seed/loans" component={LoansScreen} />
              <Route path="/seed/holds" component={HoldsScreen} />
              <Route path="/lots/new" component={BringIn} />
              <Route path="/lots/:id" component={LotScreen} />
              <Route path="/lots/:id/recall" component={RecallScreen} />
              <Route component={Nowhere} />
            </Switch>
          </ClubContext.Provider>
        )}
      </Loaded>
    </>
  );
}

/** Asks for Today while the club is still on its way: it is needed to show it, not to ask for it. */
function TodayAhead({ clubId }: { clubId: string }) {
  usePrefetchQuery(todayQuery(clubId, 'mine'));
  return null;
}

function Nowhere() {
  return (
    <Screen title={text.frame.gone}>
      <Button component="a" href="/" w="fit-content">
        {text.frame.toToday}
      </Button>
    </Screen>
  );
}

/** A screen that is fetched when somebody goes there, or reads another for a while. */
function later<Name extends string>(
  load: () => Promise<Record<Name, () => ReactNode>>,
  name: Name,
): ComponentType {
  loads.push(load);
  return lazy(async () => {
    const screen: ComponentType = (await load())[name];
    return { default: screen };
  });
}
