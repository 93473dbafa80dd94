import type { APIRoute } from 'astro';
import { entries } from '../search/entries.ts';

export const GET: APIRoute = async () =>
  new Response(JSON.stringify(await entries()), { headers: { 'content-type': 'application/json' } });
