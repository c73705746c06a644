package tallyback.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;
import tallyback.audio.WavWriter;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.TaughtVoice;
import tallyback.speech.adapt.VoiceFile;
import tallyback.speech.adapt.VoiceFileDamaged;

/**
 * The voices that were taught, each in a folder of its own in {@code voices} of the home: what was
 * said ({@code 01a.wav} and so on, and {@code transcripts.tsv}) and what was learned of it ({@code
 * voice.json}). Only the owner can read them.
 *
 * <p>Thread rule: one thread writes; what is read is read anew each time.
 */
public final class VoiceShelf {

  /** What means that nobody's voice is expected; no voice is called so. */
  public static final String ANYBODY = "anybody";

  private static final String FOLDER = "voices";
  private static final String LEARNED = "voice.json";
  private static final String TRANSCRIPTS = "transcripts.tsv";
  private static final String HEADINGS = "file\tspeaker\twords\n";
  private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9-]{0,31}");
  private static final int MOST_BYTES = 1 << 20;

  private final Path folder;

  /** The shelf in a home folder; nothing is made before something is kept. */
  public VoiceShelf(Path home) {
    folder = home.resolve(FOLDER);
  }

  /**
   * A line as it was recorded.
   *
   * @param file its file
   * @param words what it says
   */
  public record Recorded(Path file, List<String> words) {

    /** Copies the words. */
    public Recorded {
      words = List.copyOf(words);
    }

    /** Reads the sound. */
    Lesson lesson() throws IOException {
      try (WavSource source = WavSource.open(file)) {
        return new Lesson(source.readAll(), words);
      }
    }
  }

  /**
   * A name that a voice may have, in small letters.
   *
   * @throws WrongUse if it may not
   */
  public static String name(String given) {
    String name = given.strip().toLowerCase(Locale.ROOT);
    if (!NAME.matcher(name).matches() || name.equals(ANYBODY)) {
      throw new WrongUse(
          "--voice "
              + given.strip()
              + ": expected a name of letters, digits and hyphens, a letter first, 32 at most, and"
              + " not \""
              + ANYBODY
              + "\"; such as --voice anna");
    }
    return name;
  }

  /** The voices there are, those too whose teaching was broken off. */
  public List<String> names() {
    try {
      return new PrivateFolder(folder)
          .names().stream().filter(name -> NAME.matcher(name).matches()).toList();
    } catch (IOException e) {
      throw failed(folder, "can't be read", e);
    }
  }

  /** Whether anything of a voice is kept. */
  public boolean has(String name) {
    return names().contains(name);
  }

  /** Where a voice is kept. */
  public Path folderOf(String name) {
    return folder.resolve(name);
  }

  /**
   * What was learned of a voice; empty when its teaching was broken off or made nothing better.
   *
   * @throws WrongUse if the file is damaged
   */
  public Optional<TaughtVoice> taught(String name) {
    Path file = folderOf(name).resolve(LEARNED);
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw new VoiceFileDamaged("it is far larger than what Tallyback writes");
      }
      return Optional.of(VoiceFile.read(Files.readString(file)));
    } catch (NoSuchFileException e) {
      return Optional.empty();
    } catch (VoiceFileDamaged | java.nio.charset.CharacterCodingException e) {
      throw new WrongUse(
          file
              + ": not the file of a taught voice ("
              + e.getMessage()
              + "); teach --voice "
              + name
              + " --again learns it again from what was recorded");
    } catch (IOException e) {
      throw failed(file, "can't be read", e);
    }
  }

  /** Keeps what was learned in the place of what was before. */
  void keep(String name, TaughtVoice voice) {
    write(name, LEARNED, VoiceFile.write(voice).getBytes(StandardCharsets.UTF_8));
  }

  /** What was recorded of a voice, in the order of the files; none if nothing was. */
  public List<Recorded> recorded(String name) {
    return recordedIn(folderOf(name));
  }

  /**
   * What a folder of recordings says it holds.
   *
   * @throws WrongUse with one line for each thing that is wrong with {@code transcripts.tsv}
   */
  static List<Recorded> recordedIn(Path recordings) {
    Path transcripts = recordings.resolve(TRANSCRIPTS);
    List<String> lines;
    try {
      lines = Files.readAllLines(transcripts);
    } catch (NoSuchFileException e) {
      return List.of();
    } catch (java.nio.charset.CharacterCodingException e) {
      throw new WrongUse(transcripts + ": expected UTF-8 text; write it again as such");
    } catch (IOException e) {
      throw failed(transcripts, "can't be read", e);
    }
    List<Recorded> recorded = new ArrayList<>();
    List<String> faults = new ArrayList<>();
    for (int number = 0; number < lines.size(); number++) {
      String[] field = lines.get(number).split("\t", -1);
      boolean headings = number == 0 && !field[0].toLowerCase(Locale.ROOT).endsWith(".wav");
      if (headings || lines.get(number).isBlank()) {
        continue;
      }
      Path file = field[0].isBlank() ? null : recordings.resolve(field[0]);
      if (field.length < 3 || field[2].isBlank() || file == null) {
        faults.add(
            transcripts + ":" + (number + 1) + ": expected file, speaker and words between tabs");
      } else if (!Files.isRegularFile(file)) {
        faults.add(transcripts + ":" + (number + 1) + ": there is no file " + field[0]);
      } else {
        recorded.add(
            new Recorded(
                file, List.of(field[2].strip().toLowerCase(Locale.ROOT).split("\\s+", -1))));
      }
    }
    if (!faults.isEmpty()) {
      throw new WrongUse(faults);
    }
    return recorded;
  }

  /** Keeps a recording of a line; it is on disk before this returns. */
  void record(String name, int line, List<String> words, Clip clip) {
    List<Recorded> before = recorded(name);
    char take = 'a';
    while (isThere(before, file(line, take)) && take < 'z') {
      take++;
    }
    String file = file(line, take);
    write(name, file, WavWriter.toBytes(clip));
    StringBuilder text = new StringBuilder(HEADINGS);
    before.stream()
        .filter(each -> !each.file().getFileName().toString().equals(file))
        .forEach(each -> append(text, each.file().getFileName().toString(), name, each.words()));
    append(text, file, name, words);
    write(name, TRANSCRIPTS, text.toString().getBytes(StandardCharsets.UTF_8));
  }

  private static boolean isThere(List<Recorded> recorded, String file) {
    return recorded.stream().anyMatch(each -> each.file().getFileName().toString().equals(file));
  }

  private static String file(int line, char take) {
    return String.format(Locale.ROOT, "%02d%c.wav", line, take);
  }

  private static void append(StringBuilder text, String file, String name, List<String> words) {
    text.append(file).append('\t').append(name).append('\t');
    text.append(String.join(" ", words)).append('\n');
  }

  private void write(String name, String file, byte[] bytes) {
    PrivateFolder own = new PrivateFolder(folderOf(name));
    try {
      own.write(file, bytes);
    } catch (IOException e) {
      throw failed(own.path().resolve(file), "can't be written", e);
    }
  }

  /** Forgets a voice: what it said and what was learned of it; false when there is none. */
  public boolean forget(String name) {
    if (!has(name)) {
      return false;
    }
    try {
      new PrivateFolder(folderOf(name)).delete();
      return true;
    } catch (IOException e) {
      throw failed(folderOf(name), "can't be taken away", e);
    }
  }

  private static MachineFailed failed(Path path, String what, IOException e) {
    return new MachineFailed(
        path + ": " + what + " (" + e.getMessage() + "); check the disk and who may write there",
        e);
  }
}
