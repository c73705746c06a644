package tallyback.dialogue.answers;

import org.jspecify.annotations.Nullable;

/** Where the sound is heard: whose voice is listened for. */
public interface Voices {

  /** Whose voice is expected; null for anybody's. */
  @Nullable String expected();

  /**
   * Expects another voice from the next utterance on.
   *
   * @param voice its name; null for anybody's
   * @return false when there is none of that name
   */
  boolean expect(@Nullable String voice);
}
