import type request from 'supertest';
import type { Service } from './service';
import { nobody } from './world';

/** A browser in which somebody is signed in, on a page of the service itself. */
export class Browser {
  constructor(
    private readonly service: Service,
    /** The Cookie header that it sends. */
    readonly cookie: string,
  ) {}

  get = (path: string): request.Test => this.dressed(nobody(this.service).get(path));
  delete = (path: string): request.Test => this.dressed(nobody(this.service).delete(path));
  post = (path: string, body: object = {}): request.Test =>
    this.dressed(nobody(this.service).post(path, body));
  patch = (path: string, body: object = {}): request.Test =>
    this.dressed(nobody(this.service).patch(path, body));

  /** Changes a thing as it stands now: reads its ETag first. */
  async change(path: string, body: object): Promise<request.Response> {
    const { headers } = await this.get(path);
    return this.patch(path, body).set('If-Match', String(headers['etag']));
  }

  async remove(path: string): Promise<request.Response> {
    const { headers } = await this.get(path);
    return this.delete(path).set('If-Match', String(headers['etag']));
  }

  private dressed(test: request.Test): request.Test {
    return test.set('Cookie', this.cookie).set('Origin', this.service.url);
  }
}
