package tallyback.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tallyback.audio.AudioRefused;
import tallyback.audio.WavSource;
import tallyback.audio.film.FilmSound;

/**
 * The sound of films, taken out into a folder of its own that is gone when this is closed. WAV
 * files of 16-bit PCM are left as they are. One thread.
 */
public final class FilmSounds implements AutoCloseable {

  private static final byte[] RIFF = "RIFF".getBytes(StandardCharsets.US_ASCII);

  private final FilmSound program;
  private final Progress progress;
  private final Map<Path, FilmSound.About> known = new HashMap<>();
  private final List<Path> made = new ArrayList<>();
  private final List<String> notices = new ArrayList<>();

  /** Told how far it is, now and then. */
  public interface Progress {
    /**
     * So much sound is taken out.
     *
     * @param film which
     * @param doneMs so many milliseconds
     * @param ofMs of so many; 0 when nobody knows
     */
    void takenOut(Path film, long doneMs, long ofMs);
  }

  /**
   * By a program.
   *
   * @param ffmpeg name or path of ffmpeg
   * @param progress told how far it is
   */
  public FilmSounds(String ffmpeg, Progress progress) {
    this.program = FilmSound.by(ffmpeg);
    this.progress = progress;
  }

  /**
   * True for a file that is there and is no WAV file, by its beginning or, where it is damaged, by
   * its name.
   */
  public static boolean isFilm(Path file) {
    String name = file.toString().toLowerCase(Locale.ROOT);
    if (name.endsWith(".wav") || !Files.isRegularFile(file) || !Files.isReadable(file)) {
      return false;
    }
    try (InputStream in = Files.newInputStream(file)) {
      byte[] begin = in.readNBytes(RIFF.length);
      return begin.length > 0 && !Arrays.equals(begin, RIFF);
    } catch (IOException e) {
      throw RecordedSound.unreadable(file, e);
    }
  }

  /**
   * What a film says of itself.
   *
   * @throws AudioRefused if it is none, or can't be looked into
   */
  public FilmSound.About about(Path film) throws AudioRefused {
    FilmSound.About about = known.get(film);
    try {
      about = about == null ? program.about(film) : about;
    } catch (AudioRefused e) {
      throw e;
    } catch (IOException e) {
      throw failed(film, e);
    }
    known.put(film, about);
    return about;
  }

  /**
   * Recordings that can be heard: of films the sound is taken out.
   *
   * @param files WAV files and films; a WAV file of another kind is treated as a film
   * @throws WrongUse with one line for each that can't be heard
   * @throws MachineFailed if there is no room, or one can't be read
   */
  public List<RecordedSound.Recording> ready(List<Path> files) {
    List<RecordedSound.Recording> ready = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    for (Path file : files) {
      try {
        ready.add(
            isFilm(file) || isWavOfAnotherKind(file)
                ? film(file)
                : new RecordedSound.Recording(file, file));
      } catch (AudioRefused e) {
        refused.add(String.valueOf(e.getMessage()));
      }
    }
    if (!refused.isEmpty()) {
      throw new WrongUse(refused);
    }
    RecordedSound.requireSound(ready);
    return ready;
  }

  private static boolean isWavOfAnotherKind(Path file) {
    try {
      return WavSource.isOfAnotherKind(file);
    } catch (IOException e) {
      throw RecordedSound.unreadable(file, e);
    }
  }

  private RecordedSound.Recording film(Path film) throws AudioRefused {
    FilmSound.About about = about(film);
    long length = about.length() == null ? 0 : about.length().toMillis();
    try {
      Path folder = Files.createTempDirectory("tallyback-film-");
      made.add(folder);
      Path wav = folder.resolve("sound.wav");
      long soundMs = program.write(film, about, wav, done -> progress.takenOut(film, done, length));
      if (length - soundMs > 2000) {
        notices.add(
            film
                + ": its sound ends at "
                + Clock.of(soundMs)
                + " of "
                + Clock.of(length)
                + "; what is there was heard");
      }
      return new RecordedSound.Recording(film, wav);
    } catch (AudioRefused e) {
      throw e;
    } catch (IOException e) {
      throw failed(film, e);
    }
  }

  private static MachineFailed failed(Path film, IOException e) {
    return new MachineFailed(
        film
            + ": its sound can't be taken out ("
            + e.getMessage()
            + "); make room on the disk, and try again",
        e);
  }

  /** What is odd about the films so far, one line each. */
  public List<String> notices() {
    return List.copyOf(notices);
  }

  @Override
  public void close() {
    for (Path folder : made) {
      try {
        Files.deleteIfExists(folder.resolve("sound.wav"));
        Files.deleteIfExists(folder);
      } catch (IOException e) {
        // The system clears its folder of temporary files itself.
      }
    }
  }
}
