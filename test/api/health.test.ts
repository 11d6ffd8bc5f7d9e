import request from 'supertest';
import { useService } from '../support/service';

const service = useService();

test('the service says that it runs and that it can answer', async () => {
  await request(service.url).get('/health/live').expect(200, { status: 'ok' });
  await request(service.url).get('/health/ready').expect(200, { status: 'ok' });
});

test('measurements are not public', async () => {
  await request(service.url).get('/metrics').expect(404);
});
