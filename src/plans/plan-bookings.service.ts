import { Injectable } from '@nestjs/common';
import { placesOrWhyNot } from '../core/planning/why-not';
import { openSpans } from '../core/planning/open-spans';
import type { StationBooking } from '../core/planning/station-times';
import { Refusal } from '../core/refusal';
import { replaceHoney } from '../batches/batch-honey';
import { refuseSeedOfOthers, reserveSeed } from '../batches/batch-seed';
import { insertBooking } from '../bookings/booking-store';
import { lockFairShare, refuseBeyondShare } from '../bookings/fair-share';
import { LotLedger, type Part } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { gramsOf } from '../platform/fields';
import { Prisma } from '../platform/prisma-client/client';
import { canServe } from '../stations/stations.service';
import { PlanDrafts } from './plan-drafts.service';
import { heldPlan, planOf, toPlanResponse, type PlanRow, type StoredSlot } from './plan-rows';
import { PlansService, refuseOthers } from './plans.service';
import type { PlanBooking, PlanResponse } from './plans.responses';
import { roomRows, type StationRow } from './room-rows';
import { wishOfPlan } from './wish-of-plan';

const minuteMs = 60_000;

/** What somebody else was faster to get. Refusals of these kinds mean that the plan is to be made anew. */
const lostTo: readonly string[] = [
  'plan-taken',
  'place-taken',
  'other-duty',
  'temperature-clash',
  'station-closed',
  'duty-window',
  'club-closed',
  'not-enough-mass',
  'seed-reserved',
];

/** Books a whole run as it was planned: places of all stations, the batch, its honey and its seed; or nothing. */
@Injectable()
export class PlanBookings {
  constructor(
    private readonly database: Database,
    private readonly plans: PlansService,
    private readonly drafts: PlanDrafts,
    private readonly ledger: LotLedger,
    private readonly clock: Clock,
  ) {}

  async book(caller: ClubCaller, planId: string, alternative: number): Promise<PlanResponse> {
    let plan: PlanRow | undefined;
    return this.database.write(
      caller,
      async (tx) => {
        plan = await heldPlan(tx, caller.clubId, planId);
        if (plan === undefined) throw new Refusal('not-found');
        refuseOthers(caller, plan);
        this.refuseIfOver(plan);
        const chosen = plan.stored.alternatives[alternative];
        if (chosen === undefined) {
          const detail = `The plan has ${plan.stored.alternatives.length} alternatives, counted from 0.`;
          throw new Refusal('invalid', detail, { errors: [{ pointer: '#/alternative', detail }] });
        }
        const share = await lockFairShare(tx, caller.clubId, { memberId: plan.memberId });
        const stations = await this.holdStations(tx, caller.clubId, chosen.slots);
        const { honey, seed } = await this.holdLots(tx, caller, plan);

        const batchId = await this.makeBatch(tx, caller, plan, honey, seed);
        const bookings: PlanBooking[] = [];
        for (const slot of chosen.slots) {
          const times = { startsAt: new Date(slot.startsAt), endsAt: new Date(slot.endsAt) };
          const asked = { ...times, places: slot.placeIds.length };
          await refuseBeyondShare(tx, caller.clubId, share, asked, this.clock.now());
          const placeIds = placesOrTaken(slot, stations);
          const { id } = await insertBooking(
            tx,
            caller,
            plan.memberId,
            stationOf(slot, stations).changeoverMinutes,
            { ...slot, ...times, batchId, planId: plan.id },
            placeIds,
          );
          bookings.push({ step: slot.step, bookingId: id });
        }
        return this.markBooked(tx, caller, plan, { batchId, alternative, bookings });
      },
      async (refusal) =>
        plan === undefined || !lostTo.includes(refusal.code)
          ? this.withFreshPlan(caller, plan, refusal)
          : this.taken(caller, plan, refusal),
    );
  }

  private refuseIfOver({ batchId, expiresAt }: PlanRow): void {
    if (batchId !== null) {
      throw new Refusal('plan-over', `It is booked already: see its batch, ${batchId}.`, {
        offers: { batchId },
      });
    }
    if (expiresAt <= this.clock.now()) throw new Refusal('plan-over');
  }

  /** Locks the stations in the order of their ids, then reads their diaries. */
  private async holdStations(
    tx: Transaction,
    clubId: string,
    slots: readonly StoredSlot[],
  ): Promise<Map<string, HeldStation>> {
    const ids = [...new Set(slots.map(({ stationId }) => stationId))];
    await tx.$queryRaw(Prisma.sql`
      select 1 from station where club_id = ${clubId}::uuid and id = any(${ids}::uuid[])
      order by id for no key update`);
    const from = Math.min(...slots.map(({ startsAt }) => Date.parse(startsAt)));
    const until = Math.max(...slots.map(({ endsAt }) => Date.parse(endsAt)));
    const rows = await tx.$queryRaw<StationRow[]>(
      roomRows(clubId, new Date(from), new Date(until)),
    );
    return new Map(
      rows.map((row) => [
        row.stationId,
        { ...row, open: openSpans(row.room, from, until + minuteMs), booked: [] },
      ]),
    );
  }

  /** Locks honey and seed; refuses what the lots no longer hold, or what is no longer the member's. */
  private async holdLots(
    tx: Transaction,
    caller: ClubCaller,
    { memberId, stored }: PlanRow,
  ): Promise<{ honey: Part[]; seed: Part[] }> {
    const wanted = stored.inputs.honey.map(({ lotId, massKg }) => ({
      lotId,
      massG: gramsOf(massKg),
    }));
    const seed = [{ lotId: stored.seed.lotId, massG: gramsOf(stored.seed.massKg) }];
    const lotIds = [...wanted, ...seed].map(({ lotId }) => lotId);
    const held = await this.ledger.hold(tx, caller.clubId, lotIds);
    const parts = {
      honey: this.ledger.partsOf(held, wanted, '#'),
      seed: this.ledger.partsOf(held, seed, '#'),
    };
    for (const part of parts.honey) this.ledger.refuseUnlessEnough(part);
    for (const part of parts.seed) {
      refuseSeedOfOthers(memberId, part);
      this.ledger.refuseUnlessEnough(part);
    }
    return parts;
  }

  private async makeBatch(
    tx: Transaction,
    caller: ClubCaller,
    { memberId, stored }: PlanRow,
    honey: readonly Part[],
    seed: readonly Part[],
  ): Promise<string> {
    const { clubId } = caller;
    const { id } = await tx.batch.create({
      data: { clubId, memberId, name: stored.name },
      select: { id: true },
    });
    await replaceHoney(tx, clubId, id, honey);
    await reserveSeed(tx, clubId, id, seed);
    await audit(tx, caller, 'batch.planned', id, { memberId });
    return id;
  }

  private async markBooked(
    tx: Transaction,
    caller: ClubCaller,
    plan: PlanRow,
    made: { batchId: string; alternative: number; bookings: PlanBooking[] },
  ): Promise<PlanResponse> {
    const { batchId, alternative, bookings } = made;
    const stored = { ...plan.stored, bookedAlternative: alternative, bookings };
    await tx.plan.update({
      where: { clubId_id: { clubId: caller.clubId, id: plan.id } },
      data: {
        batchId,
        bookedAt: this.clock.now(),
        alternatives: stored as unknown as Prisma.InputJsonObject,
      },
    });
    await audit(tx, caller, 'plan.booked', plan.id, { batchId, alternative });
    const row = await planOf(tx, caller.clubId, plan.id);
    if (row === undefined) throw new Refusal('not-found');
    return toPlanResponse(row, this.clock.now());
  }

  private async taken(caller: ClubCaller, plan: PlanRow, refusal: Refusal): Promise<Refusal> {
    const because = refusal.code === 'plan-taken' ? '' : ` ${refusal.detail}`;
    return this.withFreshPlan(
      caller,
      plan,
      new Refusal('plan-taken', `Somebody was faster.${because}`),
    );
  }

  /** The refusal, with a new plan for the same wish beside it where there is one: it can be booked under its own id. */
  private async withFreshPlan(
    caller: ClubCaller,
    plan: PlanRow | undefined,
    refusal: Refusal,
  ): Promise<Refusal> {
    const isExpired = refusal.code === 'plan-over' && plan?.batchId === null;
    if (plan === undefined || !(isExpired || refusal.code === 'plan-taken')) return refusal;
    const words = isExpired ? 'It has expired: what was free then may be taken.' : refusal.detail;
    const { memberId } = plan;
    const request = Object.assign(wishOfPlan(plan.request), { memberId });
    try {
      const draft = await this.drafts.draft(caller, request);
      // Filed by itself: the key stands for the booking.
      const fresh = await this.database.write({ ...caller, idempotency: null }, (tx) =>
        this.plans.file(tx, caller, request, draft),
      );
      return new Refusal(refusal.code, `${words} This would do now: book plan ${fresh.id}.`, {
        offers: { plan: fresh },
      });
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      return new Refusal(refusal.code, `${words} ${error.detail}`, {
        offers: { plan: null, ...error.more.offers },
      });
    }
  }
}

interface HeldStation extends StationRow {
  open: ReturnType<typeof openSpans>;
  /** What this plan has got of it so far. */
  booked: StationBooking[];
}

/** The places of a slot, those that were planned first; or the refusal that they are taken. */
function placesOrTaken(
  slot: StoredSlot,
  stations: ReadonlyMap<string, HeldStation>,
): readonly string[] {
  const station = stationOf(slot, stations);
  const { duty, minC, maxC } = slot;
  if (!canServe(station, slot)) {
    throw new Refusal('plan-taken', `${station.name} no longer serves that (${duty}).`);
  }
  const startsAt = Date.parse(slot.startsAt);
  const endsAt = Date.parse(slot.endsAt);
  const minutes = (endsAt - startsAt) / minuteMs;
  const found = placesOrWhyNot(
    {
      placeIds: station.places.map(({ id }) => id),
      changeoverMinutes: station.changeoverMinutes,
      bookings: [...station.bookings, ...station.booked],
      closures: station.closures,
      dutyWindows: station.dutyWindows,
      open: station.open,
    },
    { duty, minC, maxC, places: slot.placeIds.length, minutes },
    startsAt,
    slot.placeIds,
  );
  if (!found.fits) {
    throw new Refusal(
      'plan-taken',
      `${station.name} is no longer free as planned (${found.whyNot.reason}).`,
    );
  }
  station.booked.push({ duty, minC, maxC, startsAt, endsAt, placeIds: found.placeIds });
  return found.placeIds;
}

function stationOf(
  { stationId }: StoredSlot,
  stations: ReadonlyMap<string, HeldStation>,
): HeldStation {
  const station = stations.get(stationId);
  if (station === undefined) throw new Refusal('plan-taken', 'A station of the plan is no more.');
  return station;
}
