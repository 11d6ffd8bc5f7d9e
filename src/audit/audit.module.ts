import { Module } from '@nestjs/common';
import { AuditController } from './audit.controller';
import { Audit } from './audit.service';

@Module({ controllers: [AuditController], providers: [Audit] })
export class AuditModule {}
