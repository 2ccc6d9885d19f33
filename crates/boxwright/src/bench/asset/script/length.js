// Numbers as the design file writes them: decimals, or fractions of an inch.

const FINEST = 64;

function mixed(value) {
  const parts = Math.round(Math.abs(value) * FINEST);
  const whole = Math.floor(parts / FINEST);
  let [over, under] = [parts % FINEST, FINEST];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  const sign = value < 0 && parts > 0 ? "-" : "";
  return sign + (over ? `${whole || ""} ${over}/${under}`.trim() : `${whole}`);
}

export const handWritten = (value, fraction) => (fraction ? mixed(value) : String(Number(value.toFixed(3))));

// Some lengths in one text, of which those that are moved are written anew in their own
// unit and on the marks of its rule.
export class Lengths {
  constructor({ pieces, numbers }) {
    this.pieces = pieces;
    this.numbers = numbers;
    this.said = numbers.map((number) => number.said);
  }

  // Moves one of them to so many mm, as far as that stays within; gives where it is then.
  move(index, mm, [least, most]) {
    const { per, step, fraction } = this.numbers[index];
    const mark = per * step;
    let marks = Math.round(mm / mark);
    if (marks * mark > most) marks = Math.floor(most / mark + 1e-6);
    if (marks * mark < least) marks = Math.ceil(least / mark - 1e-6);
    this.said[index] = handWritten(marks * step, fraction);
    return marks * mark;
  }

  get text() {
    return this.pieces[0] + this.said.map((said, index) => said + this.pieces[index + 1]).join("");
  }
}
