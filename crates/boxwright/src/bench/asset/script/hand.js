// What the hand is on just now: nothing new is put in its place meanwhile.

export const hand = { on: null };
