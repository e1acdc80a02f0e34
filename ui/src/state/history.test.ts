import { describe, expect, it } from 'vitest';
import { History } from './history';

describe('history', () => {
  it('walks back and forth over committed changes', () => {
    const history = new History('a');
    history.commit('b');
    history.commit('c');
    expect(history.undo()).toBe('b');
    expect(history.undo()).toBe('a');
    expect(history.undo()).toBe('a');
    expect(history.canUndo).toBe(false);
    expect(history.redo()).toBe('b');
    expect(history.redo()).toBe('c');
    expect(history.redo()).toBe('c');
    expect(history.canRedo).toBe(false);
  });

  it('forgets what was undone once something new is done', () => {
    const history = new History(1);
    history.commit(2);
    history.undo();
    history.commit(3);
    expect(history.canRedo).toBe(false);
    expect(history.undo()).toBe(1);
  });

  it('amends the present without a step', () => {
    const history = new History('a');
    history.commit('b');
    history.amend('B');
    expect(history.undo()).toBe('a');
    expect(history.redo()).toBe('B');
  });

  it('does not count a change that changes nothing', () => {
    const same = { n: 1 };
    const history = new History(same);
    history.commit(same);
    expect(history.canUndo).toBe(false);
  });

  it('turns to what came from elsewhere, and leaves out steps that change nothing any more', () => {
    const history = new History(1);
    for (const next of [2, 12, 3]) history.commit(next);
    history.undo();
    // Of each number the tens are gone: 12 and 2 are one.
    history.turn(2, (state) => state % 10, Object.is);
    expect(history.present).toBe(2);
    expect(history.undo()).toBe(1);
    expect(history.canUndo).toBe(false);
    expect([history.redo(), history.redo()]).toEqual([2, 3]);
    expect(history.canRedo).toBe(false);
  });
});
