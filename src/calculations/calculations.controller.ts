import { Body, Controller, Ip, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowAnyone, Reckons } from '../platform/routes';
import { CalculationLimit } from './calculation-limit';
import { reckonCooling } from './cooling';
import { CoolingRequest } from './cooling.requests';
import { CoolingResponse } from './cooling.responses';
import { reckonFermentation } from './fermentation';
import { FermentationRequest } from './fermentation.requests';
import { FermentationResponse } from './fermentation.responses';
import { reckonKeeping } from './keeping';
import { KeepingRequest } from './keeping.requests';
import { KeepingResponse } from './keeping.responses';
import { reckonMoisture } from './moisture';
import { MoistureRequest } from './moisture.requests';
import { MoistureResponse } from './moisture.responses';
import { reckonNetQuantity } from './net-quantity';
import { NetQuantityRequest } from './net-quantity.requests';
import { NetQuantityResponse } from './net-quantity.responses';
import { reckonSeeding } from './seeding';
import { SeedingRequest } from './seeding.requests';
import { SeedingResponse } from './seeding.responses';
import { reckonSetting } from './setting';
import { SettingRequest } from './setting.requests';
import { SettingResponse } from './setting.responses';
import { reckonWarming } from './warming';
import { WarmingRequest } from './warming.requests';
import { WarmingResponse } from './warming.responses';

/** What the books say, for everybody: nothing is kept, and no account is needed. */
@ApiTags('calculations')
@Controller('calculations')
export class CalculationsController {
  constructor(private readonly limit: CalculationLimit) {}

  @Post('moisture')
  @AllowAnyone()
  @Reckons(
    MoistureResponse,
    'How moist is a honey, by its refractive index? And what follows from it',
    'too-many',
  )
  moisture(@Ip() address: string, @Body() request: MoistureRequest): Promise<MoistureResponse> {
    return this.limit.during(address, 'moisture', 'light', () => reckonMoisture(request));
  }

  @Post('seeding')
  @AllowAnyone()
  @Reckons(SeedingResponse, 'How much seed to weigh, and what the blend will be', 'too-many')
  seeding(@Ip() address: string, @Body() request: SeedingRequest): Promise<SeedingResponse> {
    return this.limit.during(address, 'seeding', 'light', () => reckonSeeding(request));
  }

  @Post('warming')
  @AllowAnyone()
  @Reckons(
    WarmingResponse,
    'How long pails take to clear, and what the heat costs the honey',
    'too-many',
  )
  warming(@Ip() address: string, @Body() request: WarmingRequest): Promise<WarmingResponse> {
    return this.limit.during(address, 'warming', 'heavy', () => reckonWarming(request));
  }

  @Post('cooling')
  @AllowAnyone()
  @Reckons(CoolingResponse, 'How long warmed pails take until seed is safe in them', 'too-many')
  cooling(@Ip() address: string, @Body() request: CoolingRequest): Promise<CoolingResponse> {
    return this.limit.during(address, 'cooling', 'heavy', () => reckonCooling(request));
  }

  @Post('keeping')
  @AllowAnyone()
  @Reckons(
    KeepingResponse,
    'What a temperature history costs a honey, and what is left of the limits',
    'too-many',
  )
  keeping(@Ip() address: string, @Body() request: KeepingRequest): Promise<KeepingResponse> {
    return this.limit.during(address, 'keeping', 'light', () => reckonKeeping(request));
  }

  @Post('fermentation')
  @AllowAnyone()
  @Reckons(FermentationResponse, 'Whether a honey will keep, now and once it has set', 'too-many')
  fermentation(
    @Ip() address: string,
    @Body() request: FermentationRequest,
  ): Promise<FermentationResponse> {
    return this.limit.during(address, 'fermentation', 'light', () => reckonFermentation(request));
  }

  @Post('setting')
  @AllowAnyone()
  @Reckons(SettingResponse, 'Whether a honey will set, and how readily', 'too-many')
  setting(@Ip() address: string, @Body() request: SettingRequest): Promise<SettingResponse> {
    return this.limit.during(address, 'setting', 'light', () => reckonSetting(request));
  }

  @Post('net-quantity')
  @AllowAnyone()
  @Reckons(NetQuantityResponse, 'What a label allows, and how many pots a batch fills', 'too-many')
  netQuantity(
    @Ip() address: string,
    @Body() request: NetQuantityRequest,
  ): Promise<NetQuantityResponse> {
    return this.limit.during(address, 'net-quantity', 'light', () => reckonNetQuantity(request));
  }
}
