package tallyback.plan;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;
import org.snakeyaml.engine.v2.nodes.MappingNode;

/**
 * Reads plan files, YAML 1.2 or JSON, in the format that {@code tallyback/schema/plan.schema.json}
 * describes field by field. Whatever is wrong with a file comes back as a list of {@link
 * PlanFault}, all at once; a malformed file never throws.
 *
 * <p>Thread-safe: it keeps nothing between calls and holds nothing open.
 */
public final class PlanReader {

  /** The format this reader knows; a file with a larger number is refused as newer. */
  public static final int FORMAT = 1;

  /** The largest file that is read, in bytes. */
  public static final int LARGEST_BYTES = 1_000_000;

  private PlanReader() {}

  /**
   * Reads a plan file.
   *
   * @param file the file; its name stands in each fault as given here
   * @return the plan or what is wrong with it; a file that is not there, a folder and a file
   *     without read permission are faults
   * @throws IOException if the machine fails to read a file that is there
   */
  public static PlanReading read(Path file) throws IOException {
    Faults faults = new Faults(file.toString());
    if (Files.isDirectory(file)) {
      faults.isFolder();
    } else if (!Files.exists(file)) {
      faults.noSuchFile();
    } else if (!Files.isReadable(file)) {
      faults.notReadable();
    } else {
      return read(bytes(file), faults);
    }
    return faults.reading(Optional.empty(), new Places());
  }

  /**
   * Reads a plan that is already in memory, such as one frozen into a job.
   *
   * @param name what to call it in faults
   * @param text the whole text of the plan
   * @return the plan or what is wrong with it
   */
  public static PlanReading read(String name, String text) {
    return read(text.getBytes(StandardCharsets.UTF_8), new Faults(name));
  }

  /** At most one byte more than allowed, so that even an endless device is left after a moment. */
  private static byte[] bytes(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(LARGEST_BYTES + 1);
    }
  }

  private static PlanReading read(byte[] bytes, Faults faults) {
    if (bytes.length > LARGEST_BYTES) {
      faults.tooLarge(LARGEST_BYTES);
      return faults.reading(Optional.empty(), new Places());
    }
    Places places = new Places();
    return faults.reading(
        decode(bytes, faults).flatMap(text -> build(text, places, faults)), places);
  }

  private static Optional<Plan> build(String text, Places places, Faults faults) {
    return YamlTree.read(text, faults)
        .flatMap(
            root -> {
              if (root instanceof MappingNode mapping) {
                return new PlanBuilder(text, sha256(text), places, faults).build(mapping);
              }
              faults.notOurs(Spot.of(root, ""));
              return Optional.empty();
            });
  }

  /** Strict UTF-8; a byte order mark, which some editors put in front, is not part of the text. */
  private static Optional<String> decode(byte[] bytes, Faults faults) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    CharBuffer chars = CharBuffer.allocate(bytes.length + 1);
    CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), chars, true);
    String text = chars.flip().toString();
    if (result.isError()) {
      int line = 1 + (int) text.chars().filter(each -> each == '\n').count();
      faults.notUtf8(line, text.length() - text.lastIndexOf('\n'));
      return Optional.empty();
    }
    return Optional.of(text.startsWith("\uFEFF") ? text.substring(1) : text);
  }

  private static String sha256(String text) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(digest.digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
