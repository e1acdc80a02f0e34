import { describe, expect, it } from 'vitest';
import { Newest } from './newest';

function bench(most?: number) {
  const asked: { question: number; done: (answer: string) => void; fail: (e: unknown) => void }[] = [];
  const answers: string[] = [];
  const errors: unknown[] = [];
  const newest = new Newest<number, string>(
    (question) => new Promise((done, fail) => asked.push({ question, done, fail })),
    (answer) => answers.push(answer),
    (error) => errors.push(error),
    (then) => queueMicrotask(then),
    most,
  );
  return { asked, answers, errors, newest };
}

const settle = () => new Promise((done) => setTimeout(done, 0));

describe('newest', () => {
  it('keeps one question in flight and lets the newest one win', async () => {
    const { asked, answers, newest } = bench();
    newest.want(1);
    await settle();
    for (const question of [2, 3, 4]) newest.want(question);
    await settle();
    expect(asked.map((a) => a.question)).toEqual([1]);
    asked[0]?.done('one');
    await settle();
    expect(asked.map((a) => a.question)).toEqual([1, 4]);
    asked[1]?.done('four');
    await settle();
    expect(answers).toEqual(['one', 'four']);
    expect(newest.idle).toBe(true);
  });

  it('sends once a frame, with the last question of that frame', async () => {
    const { asked, newest } = bench();
    newest.want(1);
    newest.want(2);
    await settle();
    expect(asked.map((a) => a.question)).toEqual([2]);
  });

  it('goes on after a failure', async () => {
    const { asked, errors, newest } = bench();
    newest.want(1);
    await settle();
    newest.want(2);
    asked[0]?.fail('no');
    await settle();
    expect(errors).toEqual(['no']);
    expect(asked.map((a) => a.question)).toEqual([1, 2]);
  });

  /** The screen is busy drawing when an answer comes: the next question has to be under way by then. */
  it('may have two in flight, and drops what was overtaken', async () => {
    const { asked, answers, newest } = bench(2);
    for (const question of [1, 2, 3]) {
      newest.want(question);
      await settle();
    }
    expect(asked.map((a) => a.question)).toEqual([1, 2]);
    asked[1]?.done('two');
    await settle();
    expect(asked.map((a) => a.question)).toEqual([1, 2, 3]);
    asked[0]?.done('one');
    asked[2]?.done('three');
    await settle();
    expect(answers).toEqual(['two', 'three']);
    expect(newest.idle).toBe(true);
  });
});
