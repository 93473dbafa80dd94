import {
  type Application,
  Comment,
  CommentTag,
  Converter,
  type DeclarationReflection,
  ReferenceType,
  ReflectionKind,
  ReflectionType,
  type SomeType,
  UnknownType,
} from 'typedoc';
import * as swathe from '../../packages/core/src/index.ts';

const idOf = (name: string): string | undefined => {
  const value = (swathe as Record<string, unknown>)[name];
  return typeof value === 'function' && 'fromJson' in value && 'id' in value ? String(value.id) : undefined;
};

/** Types that only repeat the data, in words that say as much. */
const brief: Readonly<Record<string, string>> = {
  immobilisations: 'Readonly<Record<ImmobilisationId, Immobilisation>>',
  codes: 'Readonly<Record<UnitCode, { holds: Unit; times?: number; over?: number; zero?: number }>>',
};

/** Long unions that have a name. */
function named(type: SomeType | undefined): SomeType | undefined {
  const text = type?.type === 'union' ? type.toString() : '';
  const name = text.includes('"thumb tip"')
    ? 'Landmark'
    : text.includes('"volar-slab"')
      ? 'ImmobilisationId'
      : '';
  return name === '' ? type : new UnknownType(name);
}

const says = (one: DeclarationReflection, text: string): void => {
  one.comment ??= new Comment();
  one.comment.summary.push({ kind: 'text', text });
};

const groupIn = (one: DeclarationReflection, text: string): void => {
  one.comment?.blockTags.push(new CommentTag('@group', [{ kind: 'text', text }]));
};

/** The unit of a quantity's type. */
const unitOf = (type: SomeType | undefined): string | undefined =>
  /^Quantity<"(.+)">$/.exec(type?.toString() ?? '')?.[1];

function describe(one: DeclarationReflection): void {
  const { name, type } = one;
  const id = idOf(name);
  if (id !== undefined && type instanceof ReferenceType) {
    delete type.typeArguments;
    says(one, `\n\n[Inputs, units, limits, derivation and checks of \`${id}\`](/f/${id}/)\n`);
    groupIn(one, 'Formulas');
  }
  if (!(type instanceof ReflectionType)) {
    const held = unitOf(type);
    if (held !== undefined && !one.comment) says(one, `Held in \`${held}\`.`);
    if (held !== undefined) groupIn(one, 'Quantities');
    return;
  }
  const words = brief[name];
  if (words !== undefined) one.type = new UnknownType(words);
  const held = unitOf(type.declaration.signatures?.[0]?.type);
  const told = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  if (held === undefined) return;
  if (!one.comment) says(one, `From a number told in ${told}; held in \`${held}\`.`);
  groupIn(one, 'Quantities from numbers');
}

/**
 * TypeDoc would spell out every input of every formula; their pages do that better, so it links to them. What the
 * type of a quantity says already is put in words here rather than in sixty comments.
 */
export function load(app: Application): void {
  app.converter.on(Converter.EVENT_RESOLVE_BEGIN, ({ project }) => {
    for (const one of project.getReflectionsByKind(ReflectionKind.Variable | ReflectionKind.TypeAlias))
      describe(one as DeclarationReflection);
    for (const one of project.getReflectionsByKind(ReflectionKind.Property) as DeclarationReflection[]) {
      const type = one.name === 'order' ? new UnknownType('Order') : named(one.type);
      if (type) one.type = type;
    }
    for (const module of project.getReflectionsByKind(ReflectionKind.Module))
      if (module.name === 'index') module.name = 'swathe';
  });
}
