import { Module } from '@nestjs/common';
import { LineageService } from './lineage.service';
import { LotLedger } from './lot-ledger.service';
import { LotsController } from './lots.controller';
import { LotsService } from './lots.service';

@Module({
  controllers: [LotsController],
  providers: [LotsService, LotLedger, LineageService],
  exports: [LotLedger, LineageService],
})
export class LotsModule {}
