import { Module } from '@nestjs/common';
import { LotsModule } from '../lots/lots.module';
import { HistoryService } from './history.service';
import { TracesController } from './traces.controller';
import { TracesService } from './traces.service';

@Module({
  imports: [LotsModule],
  controllers: [TracesController],
  providers: [TracesService, HistoryService],
})
export class TracesModule {}
