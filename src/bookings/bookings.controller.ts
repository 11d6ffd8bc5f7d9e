import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Acts, Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { ArrivalsService } from './arrivals.service';
import { BookingMoves } from './booking-moves.service';
import {
  ArrivalRequest,
  BookingChange,
  BookingQuery,
  BookingRequest,
  ReleaseRequest,
} from './bookings.requests';
import { BookingResponse } from './bookings.responses';
import { BookingsService } from './bookings.service';

/** Places of a station for a time: the diary on the door of the creaming room. */
@ApiTags('bookings')
@Controller('clubs/:clubId/bookings')
export class BookingsController {
  constructor(
    private readonly bookings: BookingsService,
    private readonly moves: BookingMoves,
    private readonly arrivals: ArrivalsService,
  ) {}

  @Get()
  @Allow('member', 'read')
  @Lists(BookingResponse, 'Bookings, in order of their start')
  list(@Caller() caller: ClubCaller, @Query() query: BookingQuery): Promise<Page<BookingResponse>> {
    return this.bookings.list(caller, query);
  }

  @Post()
  @Allow('member', 'book')
  @Creates(BookingResponse, 'Book places', {
    refuses: [
      'place-taken',
      'other-duty',
      'temperature-clash',
      'station-closed',
      'duty-window',
      'club-closed',
      'fair-share',
      'place-overloaded',
    ],
  })
  book(@Caller() caller: ClubCaller, @Body() request: BookingRequest): Promise<BookingResponse> {
    return this.bookings.book(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(BookingResponse, 'One booking')
  show(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<BookingResponse> {
    return this.bookings.show(caller, id);
  }

  @Patch(':id')
  @Allow('member', 'book')
  @Changes(
    BookingResponse,
    'Move a booking',
    'place-taken',
    'other-duty',
    'temperature-clash',
    'station-closed',
    'duty-window',
    'club-closed',
    'fair-share',
    'plan-upset',
    'booking-begun',
    'booking-over',
    'offer-open',
  )
  move(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() change: BookingChange,
  ): Promise<BookingResponse> {
    return this.moves.move(caller, id, change);
  }

  @Delete(':id')
  @Allow('member', 'book')
  @Removes('Cancel a booking that has not begun', { refuses: ['booking-begun', 'booking-over'] })
  cancel(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.bookings.cancel(caller, id);
  }

  @Post(':id/arrival')
  @Allow('member', 'book')
  @Acts(
    BookingResponse,
    'The honey came in',
    'booking-ahead',
    'booking-over',
    'offer-open',
    'arrived-already',
    'places-not-cleared',
  )
  arrive(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: ArrivalRequest,
  ): Promise<BookingResponse> {
    return this.arrivals.arrive(caller, id, request);
  }

  @Post(':id/release')
  @Allow('member', 'book')
  @Acts(
    BookingResponse,
    'The places are clear: the rest of the time is free',
    'booking-ahead',
    'booking-over',
  )
  release(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: ReleaseRequest,
  ): Promise<BookingResponse> {
    return this.arrivals.release(caller, id, request);
  }
}
