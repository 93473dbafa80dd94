import { h, on } from './dom.ts';

const told = (seconds: number): string =>
  `${String(Math.floor(seconds / 60)).padStart(2, '0')}:${String(Math.floor(seconds % 60)).padStart(2, '0')}`;

/** Time since it was started, and nothing else: no colour, no sound, no end. */
export function clock(): HTMLElement {
  const time = h(
    'span',
    { class: 'elapsed', role: 'timer', 'aria-live': 'off', 'aria-label': 'Elapsed' },
    '00:00',
  );
  let begun: number | undefined;
  let ticking: ReturnType<typeof setInterval> | undefined;
  const show = (): void => {
    if (begun !== undefined) time.textContent = told((Date.now() - begun) / 1000);
  };
  const button = h('button', { type: 'button', class: 'plain' }, 'Start');
  on(button, 'click', () => {
    if (ticking === undefined) {
      begun = Date.now();
      show();
      ticking = setInterval(show, 250);
      button.textContent = 'Stop';
    } else {
      show();
      clearInterval(ticking);
      ticking = undefined;
      button.textContent = 'Start again';
    }
  });
  return h(
    'div',
    { class: 'clock' },
    button,
    time,
    h(
      'span',
      { class: 'hint' },
      'minutes and seconds since Start, to read beside the windows; it judges nothing',
    ),
  );
}
