import { Module } from '@nestjs/common';
import { InstallationController } from './installation.controller';
import { Installation } from './installation.service';

@Module({ controllers: [InstallationController], providers: [Installation] })
export class InstallationModule {}
