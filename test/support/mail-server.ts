import { once } from 'node:events';
import net from 'node:net';

export interface ReceivedMail {
  to: string;
  text: string;
  messageId: string;
}

/** A mail server on loopback (as much of RFC 5321 as a client needs) that keeps what it took. */
export interface MailServer {
  url: string;
  /** Mails of which the sender was told that they were taken. */
  taken: ReceivedMail[];
  /** Settles when the next mail has come whole and waits for the server's word; the server then says nothing until `goOn` is called. */
  holdNext(): Promise<{ goOn: () => void }>;
  /** Refuses mails with that word, such as 451, until called with null. */
  refuseWith(code: number | null): void;
  close(): Promise<void>;
}

export async function startMailServer(): Promise<MailServer> {
  const taken: ReceivedMail[] = [];
  let held: ((hold: { goOn: () => void }) => void) | null = null;
  let refusal: number | null = null;
  const sockets = new Set<net.Socket>();

  const server = net.createServer((socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
    socket.on('error', () => undefined);
    let buffer = '';
    let to = '';
    let isData = false;
    const say = (line: string) => socket.write(`${line}\r\n`);
    say('220 loopback');
    socket.on('data', (chunk) => {
      buffer += chunk.toString('utf8');
      for (;;) {
        const end = buffer.indexOf(isData ? '\r\n.\r\n' : '\r\n');
        if (end < 0) return;
        const text = buffer.slice(0, end);
        buffer = buffer.slice(end + (isData ? 5 : 2));
        if (isData) {
          isData = false;
          receive(text, to, socket);
        } else if (/^DATA$/i.test(text)) {
          isData = true;
          say('354 go ahead');
        } else if (/^QUIT/i.test(text)) {
          say('221 bye');
          socket.end();
        } else {
          to = /^RCPT TO:<(.+?)>/i.exec(text)?.[1] ?? to;
          say('250 fine');
        }
      }
    });
  });

  function receive(text: string, to: string, socket: net.Socket): void {
    const take = () => {
      if (socket.destroyed) return;
      if (refusal !== null) {
        socket.write(`${refusal} not now\r\n`);
        return;
      }
      const messageId = /^Message-ID: (.*)$/im.exec(text)?.[1]?.trim() ?? '';
      taken.push({ to, text, messageId });
      socket.write('250 taken\r\n');
    };
    if (held === null) {
      take();
      return;
    }
    held({ goOn: take });
    held = null;
  }

  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    url: `smtp://127.0.0.1:${(server.address() as net.AddressInfo).port}`,
    taken,
    holdNext: () =>
      new Promise((resolve) => {
        held = resolve;
      }),
    refuseWith(code) {
      refusal = code;
    },
    async close() {
      for (const socket of sockets) socket.destroy();
      server.close();
      await once(server, 'close');
    },
  };
}
