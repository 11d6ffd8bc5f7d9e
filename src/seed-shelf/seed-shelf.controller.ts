import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Answers, Lists } from '../platform/routes';
import { FittingSeedResponse } from './fitting-seed.responses';
import { FittingSeedService } from './fitting-seed.service';
import { FittingSeedQuery, SeedShelfQuery, WishedSeedQuery } from './seed-shelf.requests';
import { ShelfSeedResponse } from './seed-shelf.responses';
import { SeedShelfService } from './seed-shelf.service';

/** What seed the club has, and which fits. */
@ApiTags('seed shelf')
@Controller('clubs/:clubId')
export class SeedShelfController {
  constructor(
    private readonly shelf: SeedShelfService,
    private readonly fitting: FittingSeedService,
  ) {}

  @Get('seed-shelf')
  @Allow('member', 'read')
  @Lists(ShelfSeedResponse, 'All seed of which something is left, the newest lot first')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: SeedShelfQuery,
  ): Promise<Page<ShelfSeedResponse>> {
    return this.shelf.list(caller, query);
  }

  @Get('fitting-seed')
  @Allow('member', 'read')
  @Answers(FittingSeedResponse, 'Which seed fits a honey, the best first, and why', 'invalid')
  forWish(
    @Caller() caller: ClubCaller,
    @Query() query: WishedSeedQuery,
  ): Promise<FittingSeedResponse> {
    return this.fitting.forWish(caller, query);
  }

  @Get('batches/:id/fitting-seed')
  @Allow('member', 'read')
  @Answers(FittingSeedResponse, 'Which seed fits a batch, the best first, and why', 'invalid')
  forBatch(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: FittingSeedQuery,
  ): Promise<FittingSeedResponse> {
    return this.fitting.forBatch(caller, id, query);
  }
}
