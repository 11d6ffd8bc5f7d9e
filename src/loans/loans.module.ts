import { Module } from '@nestjs/common';
import { LotsModule } from '../lots/lots.module';
import { LoansController } from './loans.controller';
import { LoansService } from './loans.service';

@Module({
  imports: [LotsModule],
  controllers: [LoansController],
  providers: [LoansService],
})
export class LoansModule {}
