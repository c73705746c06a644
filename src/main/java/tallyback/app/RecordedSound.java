package tallyback.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.audio.RecordingTime;
import tallyback.audio.WavSource;
import tallyback.dialogue.Reply;
import tallyback.model.Entry;

/**
 * Recorded sound on its way into the log: cut into utterances, heard, noted, asked about or turned
 * down, one after the other, in constant memory however long a recording is. One thread, that of
 * the desk and the ear.
 */
public final class RecordedSound {

  private static final int SAMPLES_AT_ONCE = 1600;

  private final JobDesk desk;
  private final Conversation conversation;

  /** Sound for the job at this desk. */
  public RecordedSound(JobDesk desk, Ear ear) {
    this.desk = desk;
    this.conversation = new Conversation(desk, ear, new Turn());
  }

  /**
   * What became of one utterance.
   *
   * @param file the recording
   * @param startMs where it begins in the recording
   * @param endMs where it ends
   * @param reply what became of it
   * @param snrDb signal-to-noise ratio in dB
   * @param tooNoisy whether it was too noisy to note or ask about what was heard
   */
  public record Told(
      String file, long startMs, long endMs, Reply reply, double snrDb, boolean tooNoisy) {}

  /**
   * A recording.
   *
   * @param file as the user knows it: a WAV file or a film
   * @param sound its sound as WAV; the same file when it is one
   */
  public record Recording(Path file, Path sound) {}

  /**
   * A recording that was heard to its end.
   *
   * @param lengthMs how long it is
   * @param whole whether all the sound is there that the file promises
   * @param notices what is wrong with it, one line each with the remedy; usually none
   */
  public record Listened(long lengthMs, boolean whole, List<String> notices) {

    /** Copies the list. */
    public Listened {
      notices = List.copyOf(notices);
    }
  }

  /**
   * Hears one recording.
   *
   * @param recording a WAV file, or a film with its sound
   * @param at when it begins
   * @param each told about each utterance as soon as it is dealt with
   * @return how long the recording is, and what is wrong with it
   * @throws AudioRefused if it isn't sound that can be heard; what came before the fault is noted
   * @throws MachineFailed if it can't be read
   */
  public Listened hear(Recording recording, Instant at, Consumer<Told> each) throws AudioRefused {
    Path file = recording.file();
    try {
      String stream = streamOf(file);
      Listened listened =
          cut(
              recording,
              clip -> {
                Instant begin = at.plusMillis(clip.startMs());
                conversation.memoBefore(begin).ifPresent(over -> each.accept(told(file, over)));
                listen(file, stream, at, clip).ifPresent(each);
              });
      conversation.endMemo().ifPresent(over -> each.accept(told(file, over)));
      return listened;
    } catch (AudioRefused e) {
      throw e;
    } catch (IOException e) {
      throw unreadable(file, e);
    }
  }

  /**
   * Looks at recordings before any of them is noted, so that a wrong name notes nothing.
   *
   * @throws WrongUse with one line for each that can't be heard
   * @throws MachineFailed if one can't be read
   */
  public static void requireSound(List<Recording> recordings) {
    List<String> refused = new ArrayList<>();
    for (Recording each : recordings) {
      try {
        WavSource.requireSound(each.sound(), each.file().toString());
      } catch (AudioRefused e) {
        refused.add(e.getMessage());
      } catch (IOException e) {
        throw unreadable(each.file(), e);
      }
    }
    if (!refused.isEmpty()) {
      throw new WrongUse(refused);
    }
  }

  /**
   * When a recording began, by its file.
   *
   * @param file a WAV file
   * @param earliest when the one before it ended: a time reckoned from the file's last change is
   *     not before it, because copies are often all of one moment
   * @param zone the time zone of the shop
   * @return the time
   * @throws MachineFailed if it can't be read
   */
  public static Instant begin(Path file, Instant earliest, ZoneId zone) {
    try {
      RecordingTime time = RecordingTime.of(file, zone);
      return time.written() || time.begin().isAfter(earliest) ? time.begin() : earliest;
    } catch (IOException e) {
      throw unreadable(file, e);
    }
  }

  static MachineFailed unreadable(Path file, IOException e) {
    return new MachineFailed(file + ": can't be read (" + e.getMessage() + "); check the disk", e);
  }

  /** Cuts a recording, giving out each utterance as soon as it is whole. */
  static Listened cut(Recording recording, Consumer<Clip> each) throws IOException {
    try (WavSource source = WavSource.open(recording.sound(), recording.file().toString())) {
      Cutter cutter = new Cutter(CutterSettings.defaults());
      short[] samples = new short[SAMPLES_AT_ONCE];
      long samplesRead = 0;
      for (int count = source.read(samples); count >= 0; count = source.read(samples)) {
        samplesRead += count;
        cutter.accept(samples, count).forEach(each);
      }
      cutter.finish().forEach(each);
      return new Listened(
          samplesRead * 1000 / Clip.SAMPLE_RATE_HZ, source.isWhole(), source.notices());
    }
  }

  private Optional<Told> listen(Path file, String stream, Instant at, Clip clip) {
    return take(file, stream, at, clip, conversation.listen(clip, at.plusMillis(clip.startMs())));
  }

  private Optional<Told> take(
      Path file, String stream, Instant at, Clip clip, Conversation.Listened listened) {
    return conversation.take(stream, at, clip, listened).map(taken -> told(file, taken));
  }

  private static Told told(Path file, Conversation.Taken taken) {
    return new Told(
        file.toString(),
        taken.startMs(),
        taken.endMs(),
        taken.reply(),
        taken.snrDb(),
        taken.tooNoisy());
  }

  /**
   * Takes utterances of one recording that were cut and heard already.
   *
   * @param file the recording
   * @param at when it begins
   * @param heardAhead its utterances in order, each with what was heard as an entry
   * @param each told about each utterance as soon as it is dealt with
   */
  void take(Path file, Instant at, List<HeardAhead> heardAhead, Consumer<Told> each)
      throws IOException {
    String stream = streamOf(file);
    for (HeardAhead ahead : heardAhead) {
      Instant begin = at.plusMillis(ahead.clip().startMs());
      conversation.memoBefore(begin).ifPresent(over -> each.accept(told(file, over)));
      take(file, stream, at, ahead.clip(), conversation.asEntry(ahead.clip(), ahead.entry()))
          .ifPresent(each);
    }
    conversation.endMemo().ifPresent(over -> each.accept(told(file, over)));
  }

  /** An utterance and what was heard of it as an entry. */
  record HeardAhead(Clip clip, Ear.Heard entry) {}

  /** Cuts a recording and hears each utterance as an entry; changes nothing. */
  static List<HeardAhead> hearAhead(Path file, Ear ear) throws IOException {
    List<HeardAhead> ahead = new ArrayList<>();
    cut(new Recording(file, file), clip -> ahead.add(new HeardAhead(clip, ear.entry(clip))));
    return ahead;
  }

  /**
   * The same recording noted into the same job gives the same ids, so a retry notes nothing twice.
   */
  private String streamOf(Path file) throws IOException {
    MessageDigest digest = sha256();
    digest.update(desk.job().getBytes(StandardCharsets.UTF_8));
    try (InputStream in = new DigestInputStream(Files.newInputStream(file), digest)) {
      byte[] block = new byte[1 << 16];
      while (in.read(block) >= 0) {
        // The digest sees what is read.
      }
    }
    return "recording-" + HexFormat.of().formatHex(digest.digest(), 0, 10);
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
  }

  /** Ends the hearing; returns what was asked and never answered, now noted as unconfirmed. */
  public List<Entry> finish() {
    return conversation.finish();
  }
}
