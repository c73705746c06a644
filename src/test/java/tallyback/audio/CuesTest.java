package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import tallyback.audio.Cues.Cue;

class CuesTest {

  private static final int MS = Clip.SAMPLE_RATE_HZ / 1000;
  private static final Clip NOTHING = new Clip(new short[0], 0);

  /** The lengths of what sounds, read off the samples: stretches with at most 5 ms of quiet. */
  private static List<Integer> tonesMs(Clip clip) {
    List<Integer> tones = new ArrayList<>();
    int begin = -1;
    int last = -1;
    for (int i = 0; i <= clip.length(); i++) {
      boolean loud = i < clip.length() && Math.abs(clip.sample(i)) > 2000;
      if (loud) {
        begin = begin < 0 ? i : begin;
        last = i;
      } else if (begin >= 0 && (i == clip.length() || i - last > 5 * MS)) {
        tones.add((last - begin) / MS);
        begin = -1;
      }
    }
    return tones;
  }

  @Test
  void theyDifferByHowManyAndHowLong() {
    assertEquals(1, tonesMs(Cues.before(Cue.NOTED, NOTHING)).size());
    assertEquals(2, tonesMs(Cues.before(Cue.ASKED, NOTHING)).size());
    List<Integer> rejected = tonesMs(Cues.before(Cue.REJECTED, NOTHING));
    assertEquals(1, rejected.size());
    assertTrue(
        rejected.get(0) > 3 * tonesMs(Cues.before(Cue.NOTED, NOTHING)).get(0), rejected.toString());
    Set<List<Integer>> patterns = new HashSet<>();
    for (Cue cue : Cue.values()) {
      assertTrue(patterns.add(cue.patternMs()), cue + " sounds like another");
    }
  }

  @Test
  void theyAllHaveOnePitch() {
    for (Cue cue : List.of(Cue.NOTED, Cue.ASKED, Cue.REJECTED)) {
      Clip clip = Cues.before(cue, NOTHING);
      int crossings = 0;
      for (int i = 1; i < 80 * MS; i++) {
        crossings += clip.sample(i - 1) < 0 && clip.sample(i) >= 0 ? 1 : 0;
      }
      assertEquals(80, crossings, 1, cue + ": cycles in 80 ms");
    }
  }

  @Test
  void whatIsSaidFollowsWhole() {
    short[] words = {1, 2, 3};
    Clip clip = Cues.before(Cue.ASKED, new Clip(words, 0));

    for (int i = 0; i < words.length; i++) {
      assertEquals(words[i], clip.sample(clip.length() - words.length + i));
    }
    assertEquals(new Clip(words, 0), Cues.before(Cue.NONE, new Clip(words, 0)));
  }
}
