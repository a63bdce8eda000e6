import type { AddCommand } from './command.ts';

/** `leastwise explain`: what the words mean. */
export const explainCommand: AddCommand = (program, done) => {
  program
    .command('explain')
    .description('explain a rule, slip, term or instrument')
    .argument('[NAME...]', 'as in wrong-value, zero-correction-sign, least count; all names without one')
    .action(async (name: string[]) => {
      const { explain } = await import('../explain.ts');
      done(await explain(name.join(' ')));
    });
};
