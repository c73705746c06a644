package tallyback.audio;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * When a recording began, as far as its WAV file tells: first the chunk {@code bext} (EBU Tech
 * 3285, <cite>Specification of the Broadcast Wave Format</cite>, 2011: date at byte 320, time at
 * 330, local time), then the entry {@code ICRD} of the chunk {@code LIST INFO} if it gives date and
 * time; else the file's last change, which is when a recorder ended, less the length of the sound.
 *
 * @param begin when it began
 * @param written true when the file says so itself, false when it is reckoned from the last change
 */
public record RecordingTime(Instant begin, boolean written) {

  private static final int CHUNK_HEADER_BYTES = 8;
  private static final int RIFF_HEADER_BYTES = 12;
  private static final int DATE_AT = 320;
  private static final int DATE_AND_TIME_BYTES = 18;
  private static final int LONGEST_INFO_BYTES = 1 << 16;

  /** Separators as Tech 3285 allows them; a fraction of a second is passed over. */
  private static final Pattern DATE_AND_TIME =
      Pattern.compile(
          "(\\d{4})[-_:/. ](\\d\\d)[-_:/. ](\\d\\d)[T ]?(\\d\\d)[-_:. ](\\d\\d)(?:[-_:. ](\\d\\d))?"
              + "(?:[.,]\\d+)?\\s*(Z|[+-]\\d\\d:?\\d\\d)?");

  /**
   * Looks into a file; reads its headers only.
   *
   * @param wav a WAV file
   * @param zone for times without an offset
   * @return when it began
   * @throws IOException if the disk fails
   */
  public static RecordingTime of(Path wav, ZoneId zone) throws IOException {
    try (SeekableByteChannel file = Files.newByteChannel(wav)) {
      Chunks chunks = Chunks.of(file);
      Optional<Instant> told =
          instant(chunks.broadcastTime, zone).or(() -> instant(chunks.creation, zone));
      return told.map(begin -> new RecordingTime(begin, true))
          .orElse(
              new RecordingTime(
                  Files.getLastModifiedTime(wav).toInstant().minusMillis(chunks.lengthMs()),
                  false));
    }
  }

  private static Optional<Instant> instant(@Nullable String text, ZoneId zone) {
    Matcher part = text == null ? null : DATE_AND_TIME.matcher(text.strip());
    if (part == null || !part.matches()) {
      return Optional.empty();
    }
    try {
      LocalDateTime time =
          LocalDateTime.of(
              Integer.parseInt(part.group(1)),
              Integer.parseInt(part.group(2)),
              Integer.parseInt(part.group(3)),
              Integer.parseInt(part.group(4)),
              Integer.parseInt(part.group(5)),
              part.group(6) == null ? 0 : Integer.parseInt(part.group(6)));
      String offset = part.group(7);
      return Optional.of(time.atZone(offset == null ? zone : ZoneOffset.of(offset)).toInstant());
    } catch (DateTimeException e) {
      // A recorder whose clock was never set writes noughts.
      return Optional.empty();
    }
  }

  /** What the chunks of one file hold of time and length. */
  private static final class Chunks {
    private final SeekableByteChannel file;
    private @Nullable String broadcastTime;
    private @Nullable String creation;
    private long bytesPerSecond;
    private long soundBytes;

    private Chunks(SeekableByteChannel file) {
      this.file = file;
    }

    static Chunks of(SeekableByteChannel file) throws IOException {
      Chunks chunks = new Chunks(file);
      long at = RIFF_HEADER_BYTES;
      while (at + CHUNK_HEADER_BYTES <= file.size()) {
        ByteBuffer header = chunks.bytes(at, CHUNK_HEADER_BYTES);
        String tag = text(header, 0, 4);
        long size = Integer.toUnsignedLong(header.getInt(4));
        long body = at + CHUNK_HEADER_BYTES;
        chunks.take(tag, body, Math.min(size, file.size() - body));
        at = body + size + (size & 1);
        if (tag.equals("data") && size == 0) {
          chunks.soundBytes = file.size() - body; // never filled in: it reaches to the end
          break;
        }
      }
      return chunks;
    }

    private void take(String tag, long at, long size) throws IOException {
      if (tag.equals("fmt ") && size >= 12) {
        bytesPerSecond = Integer.toUnsignedLong(bytes(at + 8, 4).getInt(0));
      } else if (tag.equals("data")) {
        soundBytes = size;
      } else if (tag.equals("bext") && size >= DATE_AT + DATE_AND_TIME_BYTES) {
        ByteBuffer moment = bytes(at + DATE_AT, DATE_AND_TIME_BYTES);
        broadcastTime = text(moment, 0, 10) + "T" + text(moment, 10, 8);
      } else if (tag.equals("LIST") && size >= 4 && size <= LONGEST_INFO_BYTES) {
        takeInfo(bytes(at, (int) size));
      }
    }

    private void takeInfo(ByteBuffer list) {
      int at = 4;
      while (text(list, 0, 4).equals("INFO") && at + CHUNK_HEADER_BYTES <= list.limit()) {
        long size = Integer.toUnsignedLong(list.getInt(at + 4));
        int body = at + CHUNK_HEADER_BYTES;
        if (size > list.limit() - body) {
          return;
        }
        if (text(list, at, 4).equals("ICRD")) {
          creation = text(list, body, (int) size);
        }
        at = body + (int) size + (int) (size & 1);
      }
    }

    long lengthMs() {
      return bytesPerSecond == 0 ? 0 : soundBytes * 1000 / bytesPerSecond;
    }

    private ByteBuffer bytes(long at, int count) throws IOException {
      ByteBuffer buffer = ByteBuffer.allocate(count).order(ByteOrder.LITTLE_ENDIAN);
      file.position(at);
      while (buffer.hasRemaining() && file.read(buffer) >= 0) {
        // a short file leaves noughts, which are no time
      }
      return buffer.rewind();
    }

    /** Up to the first nought. */
    private static String text(ByteBuffer bytes, int at, int length) {
      byte[] raw = new byte[length];
      bytes.get(at, raw);
      String whole = new String(raw, StandardCharsets.ISO_8859_1);
      int end = whole.indexOf('\0');
      return end < 0 ? whole : whole.substring(0, end);
    }
  }
}
