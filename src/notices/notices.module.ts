import { Module } from '@nestjs/common';
import { Mailer } from './mailer';
import { NoticeMail } from './notice-mail.service';
import { NoticesController } from './notices.controller';
import { NoticesService } from './notices.service';

@Module({
  controllers: [NoticesController],
  providers: [Mailer, NoticeMail, NoticesService],
  exports: [NoticeMail],
})
export class NoticesModule {}
