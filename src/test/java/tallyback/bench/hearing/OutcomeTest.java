package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tallyback.audio.Clip;
import tallyback.audio.LevelReport;
import tallyback.speech.Hearing;
import tallyback.speech.Judgement;
import tallyback.speech.Meaning;
import tallyback.speech.Reading;
import tallyback.speech.Word;

class OutcomeTest {

  private static final List<String> FIFTEEN = List.of("fifteen");
  private static final List<String> NO_ENTRY = List.of();

  private static Outcome of(List<String> said, Judgement judgement, String... readings) {
    List<Reading> heard =
        Stream.of(readings)
            .map(text -> new Reading(List.of(new Word(text, 0, 100, 0)), 0))
            .toList();
    Hearing hearing =
        new Hearing(
            heard, 0, false, new LevelReport(-20, -50, 30, false), new Clip(new short[1600], 0));
    return Outcome.of(said, hearing, judgement, Meaning.literal());
  }

  @Test
  void notedIsRightOrWrong() {
    assertEquals(Outcome.EXACT, of(FIFTEEN, Judgement.NOTE, "fifteen", "fifty"));
    assertEquals(Outcome.NOTED_WRONG, of(FIFTEEN, Judgement.NOTE, "fifty", "fifteen"));
  }

  @Test
  void askedIsRightWhenOneOfTheReadingsIs() {
    assertEquals(Outcome.ASKED_RIGHT, of(FIFTEEN, Judgement.ASK, "fifty", "fifteen"));
    assertEquals(Outcome.ASKED_WRONG, of(FIFTEEN, Judgement.ASK, "fifty", "fifty five"));
  }

  @Test
  void ofNoEntryOnlyRejectingIsRight() {
    assertEquals(Outcome.NOTED_WRONG, of(NO_ENTRY, Judgement.NOTE, "fifty"));
    assertEquals(Outcome.ASKED_WRONG, of(NO_ENTRY, Judgement.ASK, "fifty"));
    assertEquals(Outcome.REJECTED, of(NO_ENTRY, Judgement.REJECT));
    assertEquals(Outcome.REJECTED, of(FIFTEEN, Judgement.REJECT));
  }
}
