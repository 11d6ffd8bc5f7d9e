import { Module } from '@nestjs/common';
import { LotsModule } from '../lots/lots.module';
import { DueDaysService } from './due-days.service';
import { LendingService } from './lending.service';
import { LoanReturnsService } from './loan-returns.service';
import { LoanWishesService } from './loan-wishes.service';
import { LoansController } from './loans.controller';
import { LoansService } from './loans.service';

@Module({
  imports: [LotsModule],
  controllers: [LoansController],
  providers: [LoansService, LoanWishesService, LendingService, LoanReturnsService, DueDaysService],
})
export class LoansModule {}
