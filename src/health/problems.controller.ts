import { Controller, Get, Param } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import { Refusal, refusals, type RefusalCode } from '../core/refusal';
import { statusOf } from '../platform/problem';
import { AllowAnyone, Answers } from '../platform/routes';

class ProblemType {
  type!: string;
  title!: string;
  status!: number;
}

class ProblemTypes {
  items!: ProblemType[];
}

/** The catalogue that the `type` of every problem leads to. */
@ApiExcludeController()
@Controller('problems')
export class ProblemsController {
  @Get()
  @AllowAnyone()
  @Answers(ProblemTypes, 'Every way in which the service says no')
  all(): ProblemTypes {
    return { items: (Object.keys(refusals) as RefusalCode[]).map(typeOf) };
  }

  @Get(':code')
  @AllowAnyone()
  @Answers(ProblemType, 'One of them')
  one(@Param('code') code: string): ProblemType {
    if (!Object.hasOwn(refusals, code)) throw new Refusal('not-found');
    return typeOf(code as RefusalCode);
  }
}

function typeOf(code: RefusalCode): ProblemType {
  return { type: `/problems/${code}`, title: refusals[code], status: statusOf(code) };
}
