package tallyback.audio.film;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;

/**
 * Takes the sound out of films by ffmpeg, and tells by ffprobe, which comes with it, how long a
 * film is and when it says it was begun. No shell has a part in it; a film is named by its whole
 * path as a file, so that no name can be taken for an option or for an address, and nothing a film
 * refers to is fetched.
 *
 * <p>The sound is held to the film's own times: where the track begins late or has a hole there is
 * silence, so that a moment of the sound is the same moment of the film however long that is. It is
 * bounded: 24 h of sound, and a minute without any progress ends it.
 *
 * <p>Thread rule: immutable; may be used from any thread. A call waits for the program and leaves
 * none running.
 */
public final class FilmSound {

  private static final String WANTED = "a WAV file, or a film or sound that ffmpeg can read";
  private static final JsonMapper JSON = new JsonMapper();
  private static final Duration LONGEST = Duration.ofHours(24);
  private static final int BYTES_A_MS = Clip.SAMPLE_RATE_HZ * Short.BYTES / 1000;
  private static final int HEADER_BYTES = 44;
  private static final int BLOCK_BYTES = 1 << 16;
  private static final int MOST_TOLD_BYTES = 1 << 18;
  private static final long SPARE_BYTES = 64L << 20;

  /** A clock that was never set says 1904 or 1970. */
  private static final Instant NO_CLOCK = Instant.parse("2000-01-01T00:00:00Z");

  private static final DateTimeFormatter WITHOUT_COLON =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssxx", Locale.ROOT);

  private final String ffmpeg;
  private final Duration patience;

  private FilmSound(String ffmpeg, Duration patience) {
    this.ffmpeg = ffmpeg;
    this.patience = patience;
  }

  /**
   * By a program.
   *
   * @param ffmpeg its name, looked for on the PATH, or its path; ffprobe lies beside it
   */
  public static FilmSound by(String ffmpeg) {
    return new FilmSound(ffmpeg, Duration.ofMinutes(1));
  }

  /** The same with less patience. */
  static FilmSound by(String ffmpeg, Duration patience) {
    return new FilmSound(ffmpeg, patience);
  }

  /**
   * What a film says of itself.
   *
   * @param length how long it is, or null when it doesn't say
   * @param begun when it was begun by the camera's clock, which is often wrong; null when it
   *     doesn't say
   */
  public record About(@Nullable Duration length, @Nullable Instant begun) {}

  /**
   * Looks into a film; changes nothing.
   *
   * @param film the file
   * @throws AudioRefused if it is no film, has no sound, or there is no program to look into it
   * @throws IOException if the machine fails
   */
  public About about(Path film) throws IOException {
    List<String> command = new ArrayList<>(List.of(ffprobe(), "-v", "error"));
    command.addAll(
        List.of(
            "-protocol_whitelist",
            "file,pipe",
            "-show_entries",
            "format=duration:format_tags=creation_time,com.apple.quicktime.creationdate"
                + ":stream=codec_type",
            "-of",
            "json",
            "-i",
            named(film)));
    try (Running running = Running.start(film.toString(), command, patience, missing(film))) {
      byte[] told = running.out().readNBytes(MOST_TOLD_BYTES);
      running.end(film.toString(), WANTED);
      return about(film, told);
    }
  }

  private static About about(Path film, byte[] told) throws AudioRefused {
    JsonNode json;
    try {
      json = JSON.readTree(new String(told, StandardCharsets.UTF_8));
    } catch (JsonProcessingException e) {
      throw new AudioRefused(
          film.toString(), WANTED, "an answer of ffprobe's that is no JSON", "install it anew");
    }
    boolean sound = false;
    for (JsonNode stream : json.path("streams")) {
      sound |= stream.path("codec_type").asText().equals("audio");
    }
    if (!sound) {
      throw new AudioRefused(
          film.toString(), "sound in it", "none", "was the camera's microphone off?");
    }
    JsonNode format = json.path("format");
    JsonNode tags = format.path("tags");
    Instant begun = instant(tags.path("com.apple.quicktime.creationdate").asText());
    return new About(
        length(format.path("duration").asText()),
        begun == null ? instant(tags.path("creation_time").asText()) : begun);
  }

  private static @Nullable Duration length(String seconds) {
    try {
      double length = Double.parseDouble(seconds);
      return length > 0 && length < 1e9 ? Duration.ofMillis(Math.round(length * 1000)) : null;
    } catch (NumberFormatException e) {
      return null;
    }
  }

  private static @Nullable Instant instant(String text) {
    for (DateTimeFormatter form : List.of(DateTimeFormatter.ISO_OFFSET_DATE_TIME, WITHOUT_COLON)) {
      try {
        Instant begun = OffsetDateTime.parse(text, form).toInstant();
        return begun.isBefore(NO_CLOCK) ? null : begun;
      } catch (DateTimeException e) {
        // The next form, then.
      }
    }
    return null;
  }

  /**
   * Writes the sound of a film as WAV, 16 kHz mono 16 bit.
   *
   * @param film the file
   * @param about what is known of it
   * @param wav where to; replaced. What stands there after a failure is of no use
   * @param progress told how many milliseconds of sound are written, now and then
   * @return how long the sound is, in milliseconds
   * @throws AudioRefused if its sound can't be made out, or is too long
   * @throws IOException if the machine fails, or there is no room
   */
  public long write(Path film, About about, Path wav, LongConsumer progress) throws IOException {
    requireRoom(about, wav);
    List<String> command = new ArrayList<>(List.of(ffmpeg, "-nostdin", "-hide_banner"));
    command.addAll(List.of("-v", "error", "-protocol_whitelist", "file,pipe", "-i", named(film)));
    command.addAll(List.of("-map", "0:a:0", "-vn", "-sn", "-dn"));
    // Silence where the track has none, so that its moments stay those of the film.
    command.addAll(
        List.of("-af", "aresample=" + Clip.SAMPLE_RATE_HZ + ":async=1:first_pts=0", "-ac", "1"));
    command.addAll(List.of("-c:a", "pcm_s16le", "-f", "s16le", "pipe:1"));
    try (Running running = Running.start(film.toString(), command, patience, missing(film))) {
      long bytes;
      try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(wav), BLOCK_BYTES)) {
        out.write(new byte[HEADER_BYTES]);
        bytes = copy(film, running, out, progress);
      }
      running.end(film.toString(), WANTED);
      if (bytes < Short.BYTES) {
        throw new AudioRefused(film.toString(), "sound in it", "none", "was its microphone off?");
      }
      header(wav, bytes - bytes % Short.BYTES);
      return bytes / BYTES_A_MS;
    }
  }

  private static long copy(Path film, Running running, OutputStream out, LongConsumer progress)
      throws IOException {
    InputStream in = running.out();
    byte[] block = new byte[BLOCK_BYTES];
    long bytes = 0;
    for (int count = in.read(block); count >= 0; count = in.read(block)) {
      running.goesOn();
      out.write(block, 0, count);
      bytes += count;
      progress.accept(bytes / BYTES_A_MS);
      if (bytes > LONGEST.toMillis() * BYTES_A_MS) {
        throw new AudioRefused(
            film.toString(),
            "at most " + LONGEST.toHours() + " hours of sound",
            "more",
            "cut it into shorter films");
      }
    }
    return bytes;
  }

  private static void requireRoom(About about, Path wav) throws IOException {
    Path folder = wav.toAbsolutePath().getParent();
    if (about.length() == null || folder == null) {
      return;
    }
    long wanted = about.length().toMillis() * BYTES_A_MS + SPARE_BYTES;
    if (Files.getFileStore(folder).getUsableSpace() < wanted) {
      throw new IOException(
          "its sound takes " + (wanted >> 20) + " MB in " + folder + ", where there is less room");
    }
  }

  private static void header(Path wav, long dataBytes) throws IOException {
    ByteBuffer header = ByteBuffer.allocate(HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);
    header.put("RIFF".getBytes(StandardCharsets.US_ASCII));
    header.putInt((int) (HEADER_BYTES - 8 + dataBytes));
    header.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    header.putShort((short) 1).putShort((short) 1).putInt(Clip.SAMPLE_RATE_HZ);
    header.putInt(Clip.SAMPLE_RATE_HZ * Short.BYTES);
    header.putShort((short) Short.BYTES).putShort((short) Short.SIZE);
    header.put("data".getBytes(StandardCharsets.US_ASCII)).putInt((int) dataBytes).flip();
    try (FileChannel file = FileChannel.open(wav, StandardOpenOption.WRITE)) {
      file.truncate(HEADER_BYTES + dataBytes);
      while (header.hasRemaining()) {
        int unused = file.write(header, header.position());
      }
    }
  }

  /** The whole path, and said to be a file: it can be neither an option nor an address. */
  private static String named(Path film) {
    return "file:" + film.toAbsolutePath();
  }

  private String ffprobe() {
    try {
      Path program = Path.of(ffmpeg);
      Path folder = program.getParent();
      return folder == null ? "ffprobe" : folder.resolve("ffprobe").toString();
    } catch (InvalidPathException e) {
      return "ffprobe";
    }
  }

  private AudioRefused missing(Path film) {
    return new AudioRefused(
        film.toString(),
        "16-bit PCM WAV, or ffmpeg and ffprobe to take the sound out of anything else",
        ffmpeg.equals("ffmpeg") ? "neither on the PATH" : "no program at " + ffmpeg,
        "install ffmpeg, or name where it is with --ffmpeg, or save the sound as 16-bit PCM WAV");
  }
}
