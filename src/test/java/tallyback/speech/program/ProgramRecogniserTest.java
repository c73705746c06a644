package tallyback.speech.program;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.speech.SecondFailed;
import tallyback.speech.SecondRecogniser;

/** Real programs, written for the shell by each test. */
@Timeout(60)
class ProgramRecogniserTest {

  private static final List<List<String>> BOLTS = List.of(List.of("two", "bolts"), List.of("two"));

  private static final Duration LONG = Duration.ofSeconds(20);
  private static final Duration SHORT = Duration.ofMillis(400);

  /** Which clip it is, by the size of its file: 44 bytes and two for each sample. */
  private static final String BY_TABLE =
      """
      while read -r path; do
        case $(($(wc -c < "$path"))) in
          114) echo "6 bolts off" ;;
          124) cat "$TALLYBACK_WORDS" "$TALLYBACK_PHRASES" | tr '\\n' ' '; echo ;;
          134) echo "$path" ;;
          *) echo ;;
        esac
      done
      """;

  @TempDir private Path folder;

  private String script(String text) throws IOException {
    Path script = folder.resolve("second one.sh");
    Files.writeString(script, text);
    return "sh \"" + script + "\"";
  }

  private static Clip clip(int samples) {
    return new Clip(new short[samples], 0);
  }

  private SecondRecogniser open(String script) throws Exception {
    return open(script, LONG);
  }

  private SecondRecogniser open(String script, Duration each) throws Exception {
    return ProgramRecognisers.open(script(script), BOLTS, LONG, each);
  }

  private String refused(String script) {
    return refused(script, LONG);
  }

  private String refused(String script, Duration each) {
    return String.valueOf(
        assertThrows(
                SecondFailed.class,
                () -> {
                  try (SecondRecogniser opened = open(script, each)) {
                    opened.hear(clip(35));
                    // What it printed besides has to arrive before it can be noticed.
                    Thread.sleep(300);
                    opened.hear(clip(36));
                  }
                })
            .getMessage());
  }

  @Test
  void isToldOfEachClipAndAnswersInALine() throws Exception {
    Path sound;
    try (SecondRecogniser opened = open(BY_TABLE)) {
      assertEquals("6 bolts off", opened.hear(clip(35)));
      assertEquals("", opened.hear(clip(50)));
      assertEquals(
          "bolts two two bolts two",
          opened.hear(clip(40)),
          "the words and the phrases of the plan");
      sound = Path.of(opened.hear(clip(45)));
      assertFalse(Files.exists(sound), "its sound goes when it has answered");
      assertTrue(Files.exists(sound.getParent()));
    }
    assertFalse(Files.exists(sound.getParent()), "and its folder with it");
  }

  @Test
  void manyClipsAreAnsweredEachByItsOwnLine() throws Exception {
    try (SecondRecogniser opened = open("while read -r path; do wc -c < \"$path\"; done")) {
      for (int samples = 1; samples < 60; samples++) {
        assertEquals(Integer.toString(44 + 2 * samples), opened.hear(clip(samples)));
      }
    }
  }

  @Test
  void oneThatIsNotThereIsRefusedWithTheRemedy() {
    SecondFailed refused =
        assertThrows(
            SecondFailed.class, () -> ProgramRecognisers.open("/nowhere/at/all --model x", BOLTS));
    assertTrue(
        String.valueOf(refused.getMessage()).startsWith("/nowhere/at/all can't be started"),
        refused.getMessage());
    assertTrue(
        String.valueOf(refused.getMessage()).endsWith("; give its whole path"),
        refused.getMessage());
  }

  @Test
  void oneThatEndsAtOnceIsRefusedWithItsLastWords() {
    String why = refused("echo 'no model here' >&2; exit 7");
    assertTrue(why.contains("has ended with code 7, saying \"no model here\""), why);
  }

  @Test
  void oneThatDiesLaterFails() {
    String why = refused("read -r path; echo; read -r path; exit 3");
    assertTrue(why.contains("has ended with code 3"), why);
  }

  @Test
  void oneThatHangsFailsInTimeAndIsEnded() throws Exception {
    long before = System.nanoTime();
    String why = refused("read -r path; echo; read -r path; sleep 1000 & wait", SHORT);
    assertTrue(why.contains("had no answer for 0.4 s"), why);
    assertTrue(System.nanoTime() - before < LONG.toNanos());
    for (int i = 0; i < 100 && ours("sleep 1000"); i++) {
      Thread.sleep(20);
    }
    assertFalse(ours("sleep 1000"), "what it has started is ended too");
  }

  private static boolean ours(String command) {
    return ProcessHandle.current()
        .descendants()
        .anyMatch(each -> each.info().commandLine().orElse("").contains(command));
  }

  @Test
  void megabytesWithoutAnEndOfLineFail() {
    String why = refused("read -r path; head -c 20000000 /dev/zero | tr '\\0' x; sleep 1000");
    assertTrue(why.contains("printed more than 10000 letters for one clip"), why);
  }

  @Test
  void linesThatNobodyAskedForFail() {
    String why = refused("echo hello; while read -r path; do echo; echo; echo; sleep 1; done");
    assertTrue(why.contains("printed a line that nobody asked for"), why);
  }

  @Test
  void rubbishIsALineLikeAnyOther() throws Exception {
    try (SecondRecogniser opened =
        open("while read -r path; do printf '\\377\\001\\002\\033[31m six \\200\\n'; done")) {
      String heard = opened.hear(clip(35));
      assertTrue(heard.contains("six"), heard);
      assertTrue(heard.chars().noneMatch(Character::isISOControl), heard);
    }
  }

  @Test
  void oneThatIgnoresTheEndOfItsInputIsEndedAllTheSame() throws Exception {
    try (SecondRecogniser opened =
        open("trap '' TERM; while read -r path; do echo; done; sleep 1000")) {
      assertEquals("", opened.hear(clip(35)));
    }
    for (int i = 0; i < 100 && ours("sleep 1000"); i++) {
      Thread.sleep(20);
    }
    assertFalse(ours("sleep 1000"));
  }

  @Test
  void commandsAreDividedAsPeopleWriteThem() throws Exception {
    assertEquals(List.of("asr", "--model", "a b", "c"), CommandLine.of(" asr --model \"a b\"  c "));
    Path blank = Files.writeString(folder.resolve("my program"), "");
    assertEquals(List.of(blank.toString()), CommandLine.of(blank.toString()));
    assertThrows(SecondFailed.class, () -> CommandLine.of("  "));
    assertEquals(new TreeSet<>(List.of("x")), new TreeSet<>(CommandLine.of("x")));
  }
}
