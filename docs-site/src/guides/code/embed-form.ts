import { takeOff } from 'swathe';
import { catalog } from 'swathe/catalog';
import { jsonSchema } from 'swathe/schema';

// A form, or a check of a message, can be made from the schema of what a formula reads.
const { title, required, properties } = jsonSchema(takeOff) as {
  title: string;
  required: string[];
  properties: Record<string, { type: string }>;
};
console.log(title, 'needs', required.join(' and '));
for (const [name, { type }] of Object.entries(properties)) console.log(`  ${name}: ${type}`);

// What is shown for review comes from the definition: nothing is written twice.
const formula = catalog.find(({ id }) => id === 'pressure.under-bandage');
console.log(formula?.basis, 'revision', formula?.revision, 'rests on', formula?.sources.length, 'sources');
