import { Injectable } from '@nestjs/common';

/** The time, as a thing that can be handed in. */
@Injectable()
export class Clock {
  now(): Date {
    return new Date();
  }
}
