import { Email, Password } from './account-fields';

export class SignInRequest {
  @Email()
  email!: string;

  @Password({ is: 'Yours, exactly as you chose it.' })
  password!: string;
}
