/** How far the screen's picture is turned against the phone: the sensors' axes stay with the phone. */
class ScreenTurn {
  deg = $state(0);

  constructor() {
    this.deg = screen.orientation?.angle ?? 0;
    screen.orientation?.addEventListener('change', () => (this.deg = screen.orientation.angle));
  }
}

export const screenTurn = new ScreenTurn();
