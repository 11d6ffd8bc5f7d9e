import { Module } from '@nestjs/common';
import { TokensController } from './tokens.controller';
import { Tokens } from './tokens.service';

@Module({ controllers: [TokensController], providers: [Tokens] })
export class TokensModule {}
