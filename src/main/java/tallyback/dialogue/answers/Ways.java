package tallyback.dialogue.answers;

import tallyback.phrase.Question.OfListening;

/** Where the sound comes in: carries out an order to listen in another way. */
@FunctionalInterface
public interface Ways {

  /** What became of the order. */
  enum Outcome {
    /** It listens so from now on. */
    NOW,
    /** There is no attention word to wait for. */
    NO_WORD,
    /** There is no key, pedal or button that could be held. */
    NOTHING_TO_HOLD,
    /** Nothing is listened to here as it is said: it was recorded, or typed. */
    NOT_LIVE
  }

  /** Listens in another way, if that can be. */
  Outcome listen(OfListening way);
}
