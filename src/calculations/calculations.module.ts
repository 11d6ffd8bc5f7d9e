import { Module } from '@nestjs/common';
import { CalculationLimit } from './calculation-limit';
import { CalculationsController } from './calculations.controller';

@Module({ controllers: [CalculationsController], providers: [CalculationLimit] })
export class CalculationsModule {}
