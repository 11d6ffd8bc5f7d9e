import { Button } from '@mantine/core';
import { lazy, Suspense } from 'react';
import { Route, Switch } from 'wouter';
import { ClubContext, useClubRecord } from '../api/club';
import { useMembership, useSession, type Membership } from '../api/session';
import { Door } from '../screens/door/Door';
import { FoundClub } from '../screens/door/FoundClub';
import { Invitation } from '../screens/door/Invitation';
import { text } from '../text';
import { Loaded } from '../ui/Loaded';
import { Screen } from '../ui/Screen';
import { TodayScreen } from '../screens/today/TodayScreen';
import { Frame } from './Frame';

const Account = lazy(async () => ({
  default: (await import('../screens/account/Account')).Account,
}));
const Batches = lazy(async () => ({
  default: (await import('../screens/batches/Batches')).Batches,
}));
const BatchScreen = lazy(async () => ({
  default: (await import('../screens/batches/BatchScreen')).BatchScreen,
}));
const NewBatch = lazy(async () => ({
  default: (await import('../screens/batches/NewBatch')).NewBatch,
}));
const SettingTimes = lazy(async () => ({
  default: (await import('../screens/setting-times/SettingTimesScreen')).SettingTimesScreen,
}));
const ClubScreen = lazy(async () => ({
  default: (await import('../screens/club/ClubScreen')).ClubScreen,
}));
const Lots = lazy(async () => ({ default: (await import('../screens/lots/Lots')).Lots }));
const LotScreen = lazy(async () => ({
  default: (await import('../screens/lots/LotScreen')).LotScreen,
}));
const BringIn = lazy(async () => ({
  default: (await import('../screens/lots/BringIn')).BringIn,
}));
const RoomScreen = lazy(async () => ({
  default: (await import('../screens/room/RoomScreen')).RoomScreen,
}));
const PlanScreen = lazy(async () => ({
  default: (await import('../screens/plan/PlanScreen')).PlanScreen,
}));
const Calculators = lazy(async () => ({
  default: (await import('../screens/calculators/Calculators')).Calculators,
}));

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
  const club = useClubRecord(as.clubId);
  return (
    <Loaded query={club}>
      {({ timeZone }) => (
        <ClubContext.Provider value={{ ...as, timeZone }}>
          <Switch>
            <Route path="/" component={TodayScreen} />
            <Route path="/room" component={RoomScreen} />
            <Route path="/room/plan" component={PlanScreen} />
            <Route path="/batches" component={Batches} />
            <Route path="/batches/new" component={NewBatch} />
            <Route path="/batches/:id" component={BatchScreen} />
            <Route path="/setting-times" component={SettingTimes} />
            <Route path="/club" component={ClubScreen} />
            <Route path="/club/:part" component={ClubScreen} />
            <Route path="/seed" component={Lots} />
            <Route path="/lots/new" component={BringIn} />
            <Route path="/lots/:id" component={LotScreen} />
            <Route component={Nowhere} />
          </Switch>
        </ClubContext.Provider>
      )}
    </Loaded>
  );
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
