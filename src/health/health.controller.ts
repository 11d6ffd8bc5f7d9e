import { timingSafeEqual } from 'node:crypto';
import { Controller, Get, Headers, Inject, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Refusal } from '../core/refusal';
import { Database } from '../platform/database';
import { metrics } from '../platform/metrics';
import { AllowAnyone, Answers } from '../platform/routes';
import { hashSecret } from '../platform/secrets';
import { settingsToken, type Settings } from '../platform/settings';

class Health {
  status!: string;
}

/** For whoever keeps the service running. */
@ApiExcludeController()
@Controller()
export class HealthController {
  constructor(
    private readonly database: Database,
    @Inject(settingsToken) private readonly settings: Settings,
  ) {}

  @Get('health/live')
  @AllowAnyone()
  @Answers(Health, 'Whether the process runs')
  live(): Health {
    return { status: 'ok' };
  }

  @Get('health/ready')
  @AllowAnyone()
  @Answers(Health, 'Whether the service can answer')
  async ready(): Promise<Health> {
    if (!(await this.database.isReady())) {
      throw new Refusal('unavailable', undefined, { retryAfterSeconds: 2 });
    }
    return { status: 'ok' };
  }

  @Get('metrics')
  @AllowAnyone()
  @Answers(Health, 'Measurements, for who holds METRICS_SECRET')
  async measurements(
    @Headers('authorization') authorization: string | undefined,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const { metricsSecret } = this.settings;
    if (metricsSecret === null || !isBearer(authorization, metricsSecret)) {
      throw new Refusal('not-found');
    }
    await reply.type(metrics.contentType).send(await metrics.metrics());
  }
}

function isBearer(authorization: string | undefined, secret: string): boolean {
  return timingSafeEqual(hashSecret(authorization ?? ''), hashSecret(`Bearer ${secret}`));
}
