package tallyback.speech.program;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;
import tallyback.speech.SecondFailed;
import tallyback.speech.SecondRecogniser;

/** A running program. Thread rule and closing as in {@link SecondRecogniser}. */
final class ProgramRecogniser implements SecondRecogniser {

  private static final String REMEDY = "; try it by hand: it reads a path and prints a line";
  private static final int FAINT = 8;
  private static final long END_WAIT_MS = 500;

  private final String name;
  private final Process process;
  private final Path folder;
  private final Duration each;
  private final Answers answers;
  private final LastWords lastWords;
  private long clips;

  private ProgramRecogniser(String name, Process process, Path folder, Duration each) {
    this.name = name;
    this.process = process;
    this.folder = folder;
    this.each = each;
    answers = new Answers(process.getInputStream());
    lastWords = new LastWords(process.getErrorStream());
  }

  static ProgramRecogniser open(
      List<String> command, List<List<String>> examples, Duration first, Duration each)
      throws SecondFailed, InterruptedException {
    Path folder = folder();
    ProgramRecogniser opened;
    try {
      Path known = folder.resolve("words.txt");
      Files.write(known, examples.stream().flatMap(List::stream).sorted().distinct().toList());
      Path phrases = folder.resolve("phrases.txt");
      Files.write(phrases, examples.stream().map(words -> String.join(" ", words)).toList());
      ProcessBuilder builder = new ProcessBuilder(command);
      builder.environment().put("TALLYBACK_WORDS", known.toString());
      builder.environment().put("TALLYBACK_PHRASES", phrases.toString());
      opened = new ProgramRecogniser(command.get(0), builder.start(), folder, each);
    } catch (IOException e) {
      remove(folder);
      throw new SecondFailed(
          command.get(0) + " can't be started (" + e.getMessage() + "); give its whole path", e);
    }
    try {
      opened.hear(nextToNothing(), first);
    } catch (SecondFailed | InterruptedException | RuntimeException e) {
      opened.close();
      throw e;
    }
    return opened;
  }

  private static Path folder() throws SecondFailed {
    try {
      return Files.createTempDirectory("tallyback-second-");
    } catch (IOException e) {
      throw new SecondFailed(
          "no folder for its sound can be made (" + e.getMessage() + "); make room on the disk", e);
    }
  }

  /** Not digital silence, which some recognisers can't stand. */
  private static Clip nextToNothing() {
    Random random = new Random(1);
    short[] samples = new short[Clip.SAMPLE_RATE_HZ];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) (random.nextInt(2 * FAINT + 1) - FAINT);
    }
    return new Clip(samples, 0);
  }

  @Override
  public String hear(Clip clip) throws SecondFailed, InterruptedException {
    return hear(clip, each);
  }

  private String hear(Clip clip, Duration atMost) throws SecondFailed, InterruptedException {
    if (answers.isThereOne()) {
      throw failed("printed a line that nobody asked for, so its answers can't be told apart");
    }
    clips++;
    Path file = folder.resolve("clip-" + clips + ".wav");
    try {
      WavWriter.write(clip, file);
    } catch (IOException e) {
      throw new SecondFailed(
          "its sound can't be written (" + e.getMessage() + "); make room on the disk", e);
    }
    try {
      process.getOutputStream().write((file + "\n").getBytes(StandardCharsets.UTF_8));
      process.getOutputStream().flush();
    } catch (IOException e) {
      // It reads no more, though it may not have ended quite yet.
      throw ended();
    }
    Answers.Line line = answers.next(atMost);
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      // Goes with the folder.
    }
    return switch (line.kind()) {
      case WORDS -> line.words();
      case TOO_LONG ->
          throw failed("printed more than " + Answers.LONGEST_LINE + " letters for one clip");
      case LATE -> throw failed("had no answer for " + atMost.toMillis() / 1000.0 + " s");
      case NO_MORE -> throw ended();
    };
  }

  private SecondFailed ended() throws InterruptedException {
    process.waitFor(END_WAIT_MS, TimeUnit.MILLISECONDS);
    return failed(
        process.isAlive()
            ? "reads or prints no more"
            : "has ended with code " + process.exitValue());
  }

  private SecondFailed failed(String what) throws InterruptedException {
    String last = lastWords.awaitLine();
    return new SecondFailed(
        name + " " + what + (last.isEmpty() ? "" : ", saying \"" + last + "\"") + REMEDY);
  }

  @Override
  public void close() {
    try {
      process.getOutputStream().close();
    } catch (IOException e) {
      // It has ended already.
    }
    List<ProcessHandle> children = process.descendants().toList();
    try {
      process.waitFor(END_WAIT_MS, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    process.destroyForcibly();
    children.forEach(ProcessHandle::destroyForcibly);
    answers.close();
    lastWords.close();
    remove(folder);
  }

  private static void remove(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      // A few temporary files are left; the system clears them away.
    }
  }
}
