import { Module } from '@nestjs/common';
import { HealthController } from './health.controller';
import { ProblemsController } from './problems.controller';

@Module({ controllers: [HealthController, ProblemsController] })
export class HealthModule {}
