package tallyback.export;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.StepMark;
import tallyback.model.Unit;
import tallyback.report.JobRecord;

class WebVttTest {

  private static final long SEED = 8_113;

  private static final List<StepMark> MARKS = List.of(StepMark.values());

  private static final Film WHOLE = new Film(Told.NINE, null);

  private static Film film(int beginsSeconds, int lengthSeconds) {
    return new Film(Told.NINE.plusSeconds(beginsSeconds), Duration.ofSeconds(lengthSeconds));
  }

  private static Statement spilled(String value, Unit unit) {
    return new Statement.FluidMoved(
        FluidMove.LOST, Amount.of(value, unit), false, null, null, null, null, null, null, null);
  }

  private static final Statement COLD = new Statement.StateSaid(Statement.MachineState.COLD, null);

  /** Everything after the note, without the blank line before the first cue. */
  private static String cues(Written written) {
    String text = written.text();
    assertTrue(text.startsWith("WEBVTT\n\nNOTE "), text);
    return text.substring(text.indexOf("\n\n", 10) + 2);
  }

  @Test
  void timesGoOnBeyondADay() {
    assertEquals("00:00:00.007", WebVtt.time(7));
    assertEquals("01:02:03.450", WebVtt.time(3_723_450));
    assertEquals("100:00:00.000", WebVtt.time(360_000_000));
  }

  @Test
  void nothingInATextCanEndItsCue() {
    String text =
        WebVtt.text(
            "--> NOTE",
            List.of(new WebVtt.Cue("1", 0, 1, List.of("a\n\nb --> <c> & \u2028 d", "", "\r"))));
    assertEquals(
        List.of(
            "WEBVTT",
            "",
            "NOTE --&gt; NOTE",
            "",
            "1",
            "00:00:00.000 --> 00:00:00.001",
            "a b --&gt; &lt;c&gt; &amp;   d",
            "\u2013",
            "\u2013"),
        text.lines().toList());
  }

  @Test
  void entriesAreCaptionsWhereTheyWereSaid() {
    assertEquals(
        "2\n00:00:12.500 --> 00:00:14.500\nengine cold\n",
        cues(Export.captions(new Told().at(12.5, COLD).record(), WHOLE)));
  }

  @Test
  void whatBecameOfAnEntryStandsBeforeIt() {
    JobRecord job =
        new Told()
            .at(10, spilled("200", Unit.MILLILITRE))
            .at(20, new Statement.Undone(Told.id(2)))
            .at(30, spilled("300", Unit.MILLILITRE))
            .at(40, new Statement.Corrected(Told.id(4), spilled("30", Unit.MILLILITRE)))
            .unsure(50, spilled("22", Unit.UNSAID))
            .record();
    List<String> lines = cues(Export.captions(job, WHOLE)).lines().toList();
    assertTrue(lines.get(2).startsWith("[withdrawn by no. 3] "), lines::toString);
    assertEquals("no. 2 withdrawn", lines.get(6));
    assertTrue(lines.get(10).startsWith("[corrected by no. 5] "), lines::toString);
    assertTrue(lines.get(14).startsWith("no. 4 now reads: "), lines::toString);
    assertTrue(lines.get(18).startsWith("[not confirmed] "), lines::toString);
    assertTrue(lines.get(18).contains("22 (unit not said)"), lines::toString);
  }

  @Test
  void aFilmThatStartsInTheMiddleHasOnlyItsOwnAndTheOthersAreTold() {
    JobRecord job =
        new Told().at(10, COLD).at(99.9, COLD).at(100, COLD).at(150, COLD).at(160, COLD).record();
    Written written = Export.captions(job, film(100, 60));
    assertEquals(2, written.parts());
    assertEquals(
        List.of("left out: 3 entries, 2 from before the film and 1 from after it"),
        written.notices());
    assertEquals(
        List.of("00:00:00.000 --> 00:00:02.000", "00:00:50.000 --> 00:00:52.000"),
        cues(written).lines().filter(line -> line.contains("-->")).toList());
  }

  @Test
  void whatIsLeftOutOnOneSideOnlyIsSaidSo() {
    JobRecord job = new Told().at(10, COLD).at(100, COLD).record();
    assertEquals(
        List.of("left out: 1 entry from before the film"),
        Export.captions(job, film(50, 60)).notices());
    assertEquals(
        List.of("left out: 1 entry from after the film"),
        Export.captions(job, film(0, 60)).notices());
  }

  @Test
  void aFilmOfAnotherDayHasNoCaptionsAndSaysSo() {
    Written written = Export.captions(new Told().at(10, COLD).record(), film(90_000, 60));
    assertEquals(0, written.parts());
    assertTrue(written.notices().contains(ExportText.NO_CAPTIONS), written.notices()::toString);
  }

  @Test
  void captionsOfARushCanBeReadAndNoneIsLost() {
    Random random = new Random(SEED);
    for (int round = 0; round < 500; round++) {
      List<Captions.Line> lines = new ArrayList<>();
      long at = 0;
      int count = 1 + random.nextInt(30);
      for (int i = 1; i <= count; i++) {
        at += random.nextInt(3) == 0 ? 0 : random.nextInt(4000);
        lines.add(new Captions.Line(at, i, "x".repeat(1 + random.nextInt(140))));
      }
      List<WebVtt.Cue> cues = Captions.laid(lines, Long.MAX_VALUE);
      String where = "seed " + SEED + " round " + round + ": " + lines;
      assertEquals(
          lines.stream().map(Captions.Line::text).toList(),
          cues.stream().flatMap(cue -> cue.lines().stream()).toList(),
          where);
      long before = 0;
      for (WebVtt.Cue cue : cues) {
        assertTrue(cue.fromMs() >= before, where);
        assertTrue(cue.toMs() - cue.fromMs() >= 1500L * cue.lines().size(), where);
        assertTrue(cue.lines().size() <= 3, where);
        assertTrue(cue.toMs() - cue.fromMs() <= 8000, where);
        before = cue.toMs();
      }
    }
  }

  @Test
  void aCaptionEndsWithTheFilm() {
    List<WebVtt.Cue> cues =
        Captions.laid(List.of(new Captions.Line(58_000, 1, "x".repeat(100))), 60_000);
    assertEquals(60_000, cues.get(0).toMs());
    // Said in the last moment it can still be read.
    long end = Captions.laid(List.of(new Captions.Line(59_900, 1, "x")), 60_000).get(0).toMs();
    assertEquals(61_900, end);
  }

  private static String chapters(JobRecord job, Film film) {
    return cues(Export.chapters(job, film))
        .lines()
        .filter(line -> !line.matches("\\d+"))
        .collect(Collectors.joining("\n"))
        .replaceAll("\n\n", "\n")
        .strip();
  }

  @Test
  void stepsAreChaptersFromBegunToDone() {
    JobRecord job =
        new Told()
            .step(60, "make-safe", StepMark.STARTED)
            .step(120, "make-safe", StepMark.DONE)
            .step(125, "drain", StepMark.STARTED)
            .step(300, "drain", StepMark.DONE)
            .record();
    assertEquals(
        """
        00:00:00.000 --> 00:01:00.000
        Before the first step
        00:01:00.000 --> 00:02:05.000
        1. make safe
        00:02:05.000 --> 00:05:00.000
        2. drain the coolant
        00:05:00.000 --> 00:10:00.000
        After the last step""",
        chapters(job, film(0, 600)));
  }

  @Test
  void ofTwoUnderWayTheOneBegunLastHasTheChapterAndTheOtherGoesOn() {
    JobRecord job =
        new Told()
            .step(0, "make-safe", StepMark.STARTED)
            .step(100, "drain", StepMark.STARTED)
            .step(200, "drain", StepMark.DONE)
            .step(300, "make-safe", StepMark.DONE)
            .record();
    assertEquals(
        """
        00:00:00.000 --> 00:01:40.000
        1. make safe
        00:01:40.000 --> 00:03:20.000
        2. drain the coolant
        00:03:20.000 --> 00:05:00.000
        1. make safe (goes on)""",
        chapters(job, film(0, 300)));
  }

  @Test
  void whatWasNotToldIsSaid() {
    JobRecord job =
        new Told()
            .step(100, "make-safe", StepMark.DONE)
            .step(200, "drain", StepMark.STARTED)
            .step(210, "pump-off", StepMark.DONE)
            .record();
    assertEquals(
        """
        00:00:00.000 --> 00:01:40.000
        1. make safe (begin not told)
        00:01:40.000 --> 00:03:20.000
        Between steps
        00:03:20.000 --> 00:08:20.000
        2. drain the coolant (end not told)""",
        chapters(job, film(0, 500)));
    List<String> notices = Export.chapters(job, film(0, 500)).notices();
    assertEquals(1, notices.size());
    assertTrue(notices.get(0).startsWith("no chapter for \"take the pump off\""), notices.get(0));
  }

  @Test
  void aPauseIsAChapterInTheMiddleOfAStep() {
    JobRecord job =
        new Told()
            .step(0, "make-safe", StepMark.STARTED)
            .at(60, new Statement.Paused())
            .at(360, new Statement.Resumed())
            .step(400, "make-safe", StepMark.DONE)
            .record();
    assertEquals(
        """
        00:00:00.000 --> 00:01:00.000
        1. make safe
        00:01:00.000 --> 00:06:00.000
        Work paused
        00:06:00.000 --> 00:06:40.000
        1. make safe (goes on)""",
        chapters(job, film(0, 400)));
  }

  @Test
  void aFilmThatStartsInTheMiddleOfAStepBeginsWithIt() {
    JobRecord job =
        new Told()
            .step(0, "make-safe", StepMark.STARTED)
            .step(400, "make-safe", StepMark.DONE)
            .step(500, "drain", StepMark.STARTED)
            .record();
    assertEquals("00:00:00.000 --> 00:01:00.000\n1. make safe", chapters(job, film(100, 60)));
  }

  @Test
  void withoutStepsThereAreNoChapters() {
    Written written = Export.chapters(new Told().at(10, COLD).record(), WHOLE);
    assertEquals(0, written.parts());
    assertEquals(List.of(ExportText.NO_STEPS), written.notices());
  }

  @Test
  void chaptersNeverOverlapWhateverWasTold() {
    Random random = new Random(SEED);
    List<String> steps = List.of("make-safe", "drain", "pump-off", "pump-on");
    for (int round = 0; round < 300; round++) {
      Told told = new Told();
      double at = 0;
      for (int i = random.nextInt(14); i >= 0; i--) {
        at += random.nextInt(5) == 0 ? 0 : random.nextInt(60_000) / 1000.0;
        switch (random.nextInt(6)) {
          case 0 -> told.at(at, new Statement.Paused());
          case 1 -> told.at(at, new Statement.Resumed());
          default ->
              told.step(
                  at,
                  steps.get(random.nextInt(steps.size())),
                  MARKS.get(random.nextInt(MARKS.size())));
        }
      }
      Written written = Export.chapters(told.record(), film(random.nextInt(100), 600));
      long before = 0;
      for (String line : written.text().lines().filter(each -> each.contains(" --> ")).toList()) {
        long from = ms(line.substring(0, 12));
        long to = ms(line.substring(17));
        assertEquals(before, from, "seed " + SEED + " round " + round + "\n" + written.text());
        assertTrue(to > from, written.text());
        before = to;
      }
      assertEquals(written.parts() == 0 ? 0 : 600_000, before, written.text());
    }
  }

  private static long ms(String time) {
    String[] part = time.split("[:.]", -1);
    return ((Long.parseLong(part[0]) * 60 + Long.parseLong(part[1])) * 60 + Long.parseLong(part[2]))
            * 1000
        + Long.parseLong(part[3]);
  }
}
