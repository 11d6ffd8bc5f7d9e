import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, ReachedAt, type ClubCaller } from '../platform/caller';
import { AnswersPdf } from '../platform/file-answers';
import { Allow } from '../platform/routes';
import { LabelQuery } from './labels.requests';
import { LabelsService } from './labels.service';

/** Labels for what a lot is in. */
@ApiTags('labels')
@Controller('clubs/:clubId/lots/:id/label.pdf')
export class LabelsController {
  constructor(private readonly labels: LabelsService) {}

  @Get()
  @Allow('member', 'read')
  @AnswersPdf(
    'Labels to print, with a code that leads to the lot',
    {
      fileName: 'label.pdf',
      description:
        'Of a lot that a hold reaches there are labels for pails alone, which say so: whoever puts the pail aside must be able to mark it. Labels for tubs and pots are refused until the hold is released.',
    },
    'invalid',
    'on-hold',
  )
  print(
    @Caller() caller: ClubCaller,
    @ReachedAt() reachedAt: string,
    @Param('id') id: string,
    @Query() query: LabelQuery,
  ): Promise<Buffer> {
    return this.labels.print(caller, id, query, reachedAt);
  }
}
