package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.speech.Judgement;
import tallyback.speech.SecondKind;

/** The real recogniser, and a real program beside it that answers from a table. */
class SecondRecogniserTest {

  private static final Duration LONG = Duration.ofSeconds(30);
  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));

  /** "Six splash guard bolts ten millimetre off", clear by itself. */
  private static final String CLEAR = "016-091600.wav";

  /** "Splash guard off", which is asked about when there is no second opinion. */
  private static final String DOUBTFUL = "017-091620.wav";

  /** Talk that is no entry. */
  private static final String TALK = "198-090247.wav";

  @TempDir private Path folder;
  private final List<String> told = Collections.synchronizedList(new ArrayList<>());

  /** A program that answers with these lines, one after the other; first it is tried out. */
  private Second answering(Duration patience, String... lines) throws IOException {
    Path table = folder.resolve("table.txt");
    Files.writeString(table, "\n" + String.join("\n", lines) + "\n");
    Path script = folder.resolve("second.sh");
    Files.writeString(
        script,
        """
        n=0
        while read -r path; do
          n=$((n + 1))
          answer=$(sed -n "${n}p" "$1")
          case "$answer" in
            HANG) sleep 1000 ;;
            DIE) echo 'out of wits' >&2; exit 4 ;;
            *) echo "$answer" ;;
          esac
        done
        """);
    return new Second(
        "sh \"" + script + "\" \"" + table + "\"", SecondKind.ALIKE, patience, LONG, told::add);
  }

  private static Ear.Heard hear(Ear ear, String recording) throws IOException {
    List<RecordedSound.HeardAhead> heard =
        RecordedSound.hearAhead(Path.of("demo-data/audio", recording), ear);
    assertEquals(1, heard.size());
    return heard.get(0).entry();
  }

  @Test
  void agreementNotesAndDisagreementAsks() throws IOException {
    Second second =
        answering(
            LONG,
            "Splash guard off.",
            "Thank you for watching!",
            "Ten belly pan bolts off",
            "",
            "belly pan off");
    try (Ear alone = Ear.open(PLAN, null);
        Ear ear = Ear.open(PLAN, null, second)) {
      Ear.Heard doubtful = hear(alone, DOUBTFUL);
      assertEquals(Judgement.ASK, doubtful.judgement());
      assertEquals("splash guard off", doubtful.readings().get(0));
      Ear.Heard clear = hear(alone, CLEAR);
      assertEquals(Judgement.NOTE, clear.judgement());

      Ear.Heard agreed = hear(ear, DOUBTFUL);
      assertEquals(Judgement.NOTE, agreed.judgement());
      assertEquals("splash guard off", agreed.readings().get(0));

      assertEquals(doubtful, hear(ear, DOUBTFUL), "no phrase is no opinion");

      Ear.Heard disputed = hear(ear, CLEAR);
      assertEquals(Judgement.ASK, disputed.judgement());
      assertEquals(clear.readings().get(0), disputed.readings().get(0));
      assertEquals("ten belly pan bolts off", disputed.readings().get(1));

      assertEquals(clear, hear(ear, CLEAR), "nothing understood is no opinion");

      assertEquals(
          Judgement.REJECT, hear(ear, TALK).judgement(), "what was turned down stays turned down");
    }
    assertEquals(List.of(), told);
  }

  @Test
  void oneThatHangsLeavesTheFirstJudgementInTime() throws IOException {
    try (Ear ear = Ear.open(PLAN, null, answering(Duration.ofMillis(300), "HANG"))) {
      hear(ear, TALK);
      long before = System.nanoTime();
      assertEquals(Judgement.NOTE, hear(ear, CLEAR).judgement());
      assertEquals(Judgement.ASK, hear(ear, DOUBTFUL).judgement());
      assertTrue(System.nanoTime() - before < LONG.toNanos());
    }
  }

  @Test
  void oneThatDiesIsToldOnceAndHearingGoesOn() throws IOException {
    try (Ear ear = Ear.open(PLAN, null, answering(LONG, "DIE"))) {
      assertEquals(Judgement.NOTE, hear(ear, CLEAR).judgement());
      assertEquals(Judgement.NOTE, hear(ear, CLEAR).judgement());
      assertEquals(Judgement.ASK, hear(ear, DOUBTFUL).judgement());
    }
    assertEquals(
        List.of(
            "second recogniser: sh has ended with code 4, saying \"out of wits\"; try it by hand:"
                + " it reads a path and prints a line; hearing goes on with the first alone"),
        told);
  }
}
