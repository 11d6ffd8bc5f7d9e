import { mkdir, rename, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Inject, Injectable } from '@nestjs/common';
import { createTransport } from 'nodemailer';
import { settingsToken, type Settings } from '../platform/settings';

export interface Mail {
  /** Stays the same when the mail is sent again: mail programs know it as the same. */
  id: string;
  to: { name: string; address: string };
  subject: string;
  text: string;
}

/** Longer than a mail server that is well takes for its next word. */
const patienceMs = 15_000;

/** Sends mail through the mail server of the settings; without one, writes each as a file that mail programs open. */
@Injectable()
export class Mailer {
  constructor(@Inject(settingsToken) private readonly settings: Settings) {}

  /** Comes to its end when the mail server has taken the mail, or the file is whole. Throws when neither can be. */
  async send(mail: Mail): Promise<void> {
    const { smtpUrl, mailFrom } = this.settings;
    const message = {
      from: mailFrom,
      to: mail.to,
      subject: mail.subject,
      text: mail.text,
      messageId: `<${mail.id}@${hostOf(mailFrom)}>`,
      // RFC 3834: out-of-office programs do not answer it.
      headers: { 'Auto-Submitted': 'auto-generated' },
    };
    if (smtpUrl !== null) {
      const server = createTransport({
        url: smtpUrl,
        connectionTimeout: patienceMs,
        greetingTimeout: patienceMs,
        socketTimeout: patienceMs,
      });
      await server.sendMail(message);
      return;
    }
    const toText = createTransport({ streamTransport: true, buffer: true, newline: 'windows' });
    const { message: text } = await toText.sendMail(message);
    const folder = path.join(this.settings.dataFolder, 'mail');
    await mkdir(folder, { recursive: true });
    // Under its own name only when it is whole; the same mail again takes its own place.
    const file = path.join(folder, `${mail.id}.eml`);
    await writeFile(`${file}.part`, text as Buffer);
    await rename(`${file}.part`, file);
  }
}

function hostOf(address: string): string {
  return /@([\w.-]+)/.exec(address)?.[1] ?? 'localhost';
}
