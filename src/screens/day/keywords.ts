/** Keys that belong to no command: they steer what has the keyboard. In the words of the key list. */
export interface KeyWords {
  readonly keys: string;
  readonly does: string;
}

export const STEERING: readonly { readonly title: string; readonly keys: readonly KeyWords[] }[] = [
  {
    title: "From task to task",
    keys: [
      { keys: "Left, Right", does: "earlier, later task of the lane; with Shift select along" },
      { keys: "Up, Down", does: "nearest task of the lane above, below" },
      { keys: "Enter", does: "take in hand: the task, all selected, or the EVA" },
      { keys: "Shift+F10", does: "what can be done with it" },
      { keys: "Alt+Left, Right", does: "pan" },
    ],
  },
  {
    title: "With something in hand",
    keys: [
      { keys: "Left, Right", does: "a minute earlier, later (with Shift ten)" },
      { keys: "Up, Down", does: "lane above, below" },
      { keys: "Page Up, Page Down", does: "previous, next start that fits" },
      { keys: "Home, End", does: "first, last start that fits" },
      { keys: "O", does: "others stay, others slide" },
      { keys: "B", does: "to the bench and back" },
      { keys: "Enter", does: "set down" },
      { keys: "Escape", does: "take back" },
    ],
  },
  {
    title: "With the pointer",
    keys: [
      { keys: "Shift, Ctrl + click", does: "add to the selection, take out of it" },
      { keys: "Shift + drag the ground", does: "select what is touched" },
      { keys: "Drag a side", does: "longer or shorter" },
      { keys: "Drag an EVA's bar", does: "move the whole EVA" },
      { keys: "Shift while dragging", does: "others slide instead of stay" },
      { keys: "Drag on to a place of the map", does: "change the place" },
      { keys: "Alt while dragging", does: "no snapping" },
      { keys: "Wheel, pinch", does: "zoom; sideways pan" },
    ],
  },
];
