import type { APIRoute } from 'astro';
import { tables } from '../../library/tables.ts';

export const getStaticPaths = () => tables.map(({ name, csv }) => ({ params: { name }, props: { csv } }));

export const GET: APIRoute = ({ props }) =>
  new Response(props['csv'] as string, { headers: { 'content-type': 'text/csv; charset=utf-8' } });
