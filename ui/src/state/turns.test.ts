import { describe, expect, it } from 'vitest';
import { inTurns } from './turns';

describe('work in turns', () => {
  it('is done in its order, each piece in a turn of its own, and then it is told', async () => {
    const seen: string[] = [];
    const between = () => setTimeout(() => seen.push('finger'));
    await new Promise<void>((done) => {
      inTurns([() => (seen.push('a'), between()), () => seen.push('b')], () => {
        seen.push('done');
        done();
      });
      expect(seen).toEqual([]);
    });
    expect(seen.filter((one) => one !== 'finger')).toEqual(['a', 'b', 'done']);
    expect(seen.indexOf('finger')).toBeLessThan(seen.indexOf('b'));
  });

  it('tells at once where there is nothing to do', () => {
    let told = 0;
    inTurns([], () => (told += 1));
    expect(told).toBe(1);
  });
});
