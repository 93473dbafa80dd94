import { isRecord } from 'swathe/definition';

/** What stands at a path of data, such as `limb.0.length`. */
export const valueAt = (data: unknown, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>(
      (part, key) => (Array.isArray(part) ? part[Number(key)] : isRecord(part) ? part[key] : undefined),
      data,
    );

/** A copy of data with another value at a path, or without it where the value is `undefined`. */
export function withAt<T>(data: T, path: string, value: unknown): T {
  const [key = '', ...rest] = path.split('.');
  const next = (part: unknown): unknown =>
    rest.length === 0 ? value : withAt(part ?? {}, rest.join('.'), value);
  if (Array.isArray(data)) {
    const [n, made] = [Number(key), next(data[Number(key)])];
    return [...data.slice(0, n), ...(made === undefined ? [] : [made]), ...data.slice(n + 1)] as T;
  }
  const before: Readonly<Record<string, unknown>> = isRecord(data) ? data : {};
  const { [key]: old, ...others } = before;
  const made = next(old);
  // What is changed keeps its place among the others.
  return (made === undefined ? others : { ...before, [key]: made }) as T;
}
