package tallyback.bench.hearing;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import tallyback.speech.Recogniser;

/**
 * What hearings depend on, as one short name: after a change of the grammar, the settings or the
 * classes that hear, what was heard before is of no use any more.
 */
final class Fingerprint {

  private static final List<String> PACKAGES = List.of("audio", "phrase", "speech");

  private final MessageDigest digest;

  Fingerprint() throws IOException {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
    addClasses();
  }

  private void addClasses() throws IOException {
    Path classes;
    try {
      classes =
          Path.of(Recogniser.class.getProtectionDomain().getCodeSource().getLocation().toURI());
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
    for (String part : PACKAGES) {
      addFolder(classes.resolve("tallyback").resolve(part));
    }
    addFolder(classes.resolve("tallyback").resolve("grammars"));
  }

  /** Adds all files of a folder, in order. */
  void addFolder(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
        add(folder.relativize(file));
        digest.update(Files.readAllBytes(file));
      }
    }
  }

  /** Adds anything by its text. */
  Fingerprint add(Object anything) {
    digest.update(anything.toString().getBytes(StandardCharsets.UTF_8));
    digest.update((byte) 0);
    return this;
  }

  /** Twelve hexadecimal digits. */
  String name() {
    return HexFormat.of().formatHex(digest.digest(), 0, 6);
  }
}
