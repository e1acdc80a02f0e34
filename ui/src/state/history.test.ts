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
});
