import { exerciseHtml } from './exercise-html.ts';
import { leastSeed, mostSeed } from './exercises.ts';

/** Exercises whose numbers follow the number of a set, which stands in the address: a class that opens it has the same. */
class LessonExercises extends HTMLElement {
  connectedCallback(): void {
    const input = this.querySelector('input');
    if (!input) return;
    const read = (): void => {
      const asked = new URLSearchParams(location.hash.slice(1)).get('set');
      if (asked !== null) this.#show(Number(asked), input);
    };
    input.addEventListener('change', () => this.#choose(Number(input.value), input));
    this.querySelector('button')?.addEventListener('click', () => {
      const [random = 0] = crypto.getRandomValues(new Uint32Array(1));
      this.#choose(leastSeed + (random % (mostSeed - leastSeed + 1)), input);
    });
    addEventListener('hashchange', read);
    read();
  }

  #choose(seed: number, input: HTMLInputElement): void {
    if (this.#show(seed, input)) history.replaceState(null, '', `#set=${seed}`);
  }

  #show(seed: number, input: HTMLInputElement): boolean {
    const status = this.querySelector('[role=status]') as HTMLElement;
    if (!Number.isInteger(seed) || seed < leastSeed || seed > mostSeed) {
      status.textContent = `A set is a whole number from ${leastSeed} to ${mostSeed}.`;
      return false;
    }
    const { questions, answers } = exerciseHtml(seed);
    input.value = String(seed);
    for (const [part, html] of Object.entries({ questions, answers, set: String(seed) }))
      for (const place of this.querySelectorAll(`[data-part=${part}]`)) place.innerHTML = html;
    status.textContent = `Set ${seed}.`;
    return true;
  }
}

customElements.define('lesson-exercises', LessonExercises);
