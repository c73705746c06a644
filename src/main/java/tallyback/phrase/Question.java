package tallyback.phrase;

import org.jspecify.annotations.Nullable;

/** Something asked of the tool. It is answered, and nothing is noted because of it. */
public sealed interface Question {

  /** What is asked about the job as a whole. */
  enum OfJob implements Question {
    /** May it be started for test. */
    MAY_START,
    /** May it go to work. */
    MAY_WORK,
    /** May it be handed over. */
    MAY_HAND_OVER,
    /** Which step comes next. */
    NEXT,
    /** What was done last. */
    WHERE_WAS_I,
    /** What is left to do. */
    LEFT,
    /** What is in the tray. */
    IN_THE_TRAY,
    /** What isn't tight yet. */
    NOT_TIGHT,
    /** What nobody said. */
    NOT_SAID,
    /** What may go wrong at the step at hand. */
    CAUTIONS,
    /** How long it took, and what the plan expects. */
    HOW_LONG,
    /** Which reminders are still to come. */
    TIMERS,
    /** What can be said. */
    CAN_SAY
  }

  /** What is asked of the voice that speaks. */
  enum OfVoice implements Question {
    /** Say once more what was said last. */
    SAY_AGAIN,
    /** Speak louder. */
    LOUDER,
    /** Speak less loud. */
    QUIETER
  }

  /** What is asked of a memo. */
  enum OfMemo implements Question {
    /** It ends here. */
    END_OF_MEMO
  }

  /** How it is to listen from now on. */
  enum OfListening implements Question {
    /** Everything that is said may be an entry. */
    TO_EVERYTHING,
    /** Only what follows the attention word. */
    AFTER_THE_WORD,
    /** Only while a key, a pedal or a button is held. */
    WHILE_HELD
  }

  /**
   * Whose voice is listened for.
   *
   * @param voice the voice that speaks from now on, {@link #ANYBODY} for nobody's in particular;
   *     null: who is asked for
   */
  record OfSpeaker(@Nullable String voice) implements Question {

    /** In the place of a voice: it is not known whose. */
    public static final String ANYBODY = "anybody";
  }

  /** What can be asked about one item of the plan. */
  enum ItemTopic {
    /** How tight. */
    TORQUE,
    /** Which head, thread and length. */
    SIZE,
    /** In which order its fasteners are tightened. */
    ORDER,
    /** How it must be turned. */
    WAY_ROUND,
    /** Where it belongs. */
    PLACE
  }

  /**
   * Something about one item.
   *
   * @param topic what is asked
   * @param item plan id; null for the one spoken of last
   */
  record OfItem(ItemTopic topic, @Nullable String item) implements Question {}

  /** What can be asked about fluid. */
  enum FluidTopic {
    /** How much came out. */
    OUT,
    /** How much went in. */
    IN,
    /** How much is missing. */
    SHORT,
    /** How much is still to be poured in. */
    POUR
  }

  /**
   * Something about fluid.
   *
   * @param topic what is asked
   * @param fluid plan id of the fluid; null for whatever was spoken of
   */
  record OfFluid(FluidTopic topic, @Nullable String fluid) implements Question {}

  /**
   * The last entries read back.
   *
   * @param entries how many, at least 1
   */
  record ReadBackLast(int entries) implements Question {}
}
