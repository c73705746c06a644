package tallyback.dialogue.answers;

/**
 * The same thing for ear and eye.
 *
 * @param spoken for the ear
 * @param shown for the eye
 */
record Told(String spoken, String shown) {

  static Told same(String text) {
    return new Told(text, text);
  }
}
