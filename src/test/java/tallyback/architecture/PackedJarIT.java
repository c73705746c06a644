package tallyback.architecture;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.jar.JarFile;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The one file a user gets: everything it needs is in it, and nothing it does not. */
class PackedJarIT {
  private static final Path PACKED =
      Path.of(Objects.requireNonNull(System.getProperty("tallyback.jar"), "tallyback.jar"));

  @SuppressWarnings("NullAway.Init") // opened before the first test
  private static JarFile jar;

  @BeforeAll
  static void open() throws IOException {
    jar = new JarFile(PACKED.toFile());
  }

  @AfterAll
  static void close() throws IOException {
    jar.close();
  }

  @Test
  void startsWithNothingElseOnTheClassPath() throws Exception {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                PACKED.toString(),
                "--version")
            .redirectErrorStream(true)
            .start();
    String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
    assertEquals(0, process.waitFor(), printed);
    assertTrue(printed.matches("tallyback \\d+\\.\\d+\\.\\d+\\R"), printed);
  }

  @Test
  void leavesTheLanguageModelOut() {
    assertEquals(List.of(), names().filter(name -> name.contains(".lm")).toList());
    assertNotNull(jar.getEntry("edu/cmu/sphinx/models/en-us/en-us/means"));
    assertNotNull(jar.getEntry("edu/cmu/sphinx/models/en-us/cmudict-en-us.dict"));
  }

  @Test
  void carriesTheDatabaseForTheseMachines() {
    Set<String> machines =
        names()
            .filter(name -> name.startsWith("org/sqlite/native/") && !name.endsWith("/"))
            .map(name -> name.substring("org/sqlite/native/".length(), name.lastIndexOf('/')))
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(
        Set.of("Linux/aarch64", "Linux/x86_64", "Mac/aarch64", "Mac/x86_64", "Windows/x86_64"),
        machines);
  }

  @Test
  void holdsNoSignatureThatNoLongerFits() {
    assertEquals(
        List.of(),
        names().filter(name -> name.matches("META-INF/[^/]*\\.(SF|DSA|RSA|EC)")).toList());
  }

  @Test
  void holdsNoModuleDescriptorOfALibrary() {
    assertEquals(List.of(), names().filter(name -> name.endsWith("module-info.class")).toList());
  }

  @Test
  void keepsTheServicesOfItsLibraries() throws IOException {
    assertTrue(text("META-INF/services/java.sql.Driver").contains("org.sqlite.JDBC"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "sphinx4-core",
        "sphinx4-data",
        "sqlite-jdbc",
        "jackson-databind",
        "snakeyaml-engine",
        "picocli",
        "jte-runtime",
        "biweekly",
        "vinnie",
        "metadata-extractor",
        "xmpcore",
        "commons-math3",
        "freetts",
        "jspecify",
        "javalin",
        "jetty-server",
        "jetty-websocket-jetty-server",
        "jakarta.servlet-api",
        "kotlin-stdlib",
        "slf4j-api",
        "slf4j-jdk14",
        "bcpkix-jdk18on",
        "bcprov-jdk18on",
        "openhtmltopdf-core",
        "openhtmltopdf-pdfbox",
        "pdfbox",
        "fontbox",
        "ph-fonts-open-sans"
      })
  void namesTheLicenceOf(String library) throws IOException {
    List<String> lines =
        text("THIRD-PARTY.txt").lines().filter(line -> line.contains(":" + library + ":")).toList();
    assertEquals(1, lines.size(), lines::toString);
    assertTrue(
        lines
            .get(0)
            .strip()
            .matches(
                "(\\((Apache-2\\.0|BSD-2-Clause|BSD-3-Clause|EPL-2\\.0|MIT|LGPL-2\\.1-or-later|Bouncy Castle Licence)\\) ?)+.*"),
        lines.get(0));
  }

  @Test
  void keepsLicencesAndNotices() throws IOException {
    assertTrue(text("LICENSE").contains("Apache License"));
    assertTrue(text("META-INF/NOTICE").contains("Jackson"));
    assertTrue(text("META-INF/NOTICE.txt").contains("Apache Commons Math"));
    assertTrue(text("META-INF/licenses/sphinx4.txt").contains("Carnegie Mellon University"));
    assertTrue(text("META-INF/licenses/freetts.txt").contains("Sun Microsystems"));
    assertTrue(text("biweekly/biweekly.license").contains("Michael Angstadt"));
    assertTrue(text("LICENSES").contains("Michael Angstadt"));
    assertTrue(text("META-INF/licenses/jetty.txt").contains("Apache License 2.0"));
    assertTrue(text("META-INF/licenses/jakarta-servlet.txt").contains("Eclipse Public License"));
    assertTrue(text("META-INF/licenses/slf4j.txt").contains("QOS.ch"));
    assertTrue(text("META-INF/licenses/bouncycastle.txt").contains("Legion of the Bouncy Castle"));
    assertTrue(text("META-INF/LICENSE-LGPL-2.1.txt").contains("LESSER GENERAL PUBLIC LICENSE"));
    assertTrue(text("META-INF/licenses/openhtmltopdf.txt").contains("openhtmltopdf"));
    assertTrue(text("fonts/ttf/OpenSans/OFL.txt").contains("SIL Open Font License"));
    assertNotNull(jar.getEntry("fonts/ttf/OpenSans/OpenSans-Regular.ttf"));
    assertNotNull(jar.getEntry("fonts/ttf/OpenSans/OpenSans-Bold.ttf"));
    assertTrue(text("META-INF/licenses/sphinx4-data.txt").contains("Carnegie Mellon University"));
    assertTrue(text("edu/cmu/sphinx/models/en-us/en-us/README").contains("Alpha Cephei"));
  }

  @Test
  void holdsThePage() {
    for (String file :
        java.util.List.of(
            "index.html", "page.js", "page.css", "microphone.js", "pair.html", "trust.html")) {
      assertNotNull(jar.getEntry("tallyback/page/" + file), file);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"grammars", "seeds", "demo-data"})
  void carriesEveryFileOf(String folder) throws IOException {
    Path source = Path.of(folder);
    Set<String> expected = new TreeSet<>();
    if (Files.isDirectory(source)) {
      try (Stream<Path> files = Files.walk(source)) {
        files
            .filter(Files::isRegularFile)
            .map(file -> "tallyback/" + file.toString().replace('\\', '/'))
            .forEach(expected::add);
      }
    }
    Set<String> packed =
        names()
            .filter(name -> name.startsWith("tallyback/" + folder + "/") && !name.endsWith("/"))
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(expected, packed);
    for (String name : packed) {
      Path file = Path.of(name.substring("tallyback/".length()));
      try (InputStream in = jar.getInputStream(jar.getEntry(name))) {
        assertEquals(-1, mismatch(Files.readAllBytes(file), in.readAllBytes()), name);
      }
    }
  }

  private static int mismatch(byte[] expected, byte[] found) {
    return Arrays.mismatch(expected, found);
  }

  private static Stream<String> names() {
    return jar.stream().map(ZipEntry::getName);
  }

  private static String text(String name) throws IOException {
    ZipEntry entry = jar.getEntry(name);
    assertNotNull(entry, name);
    try (InputStream in = jar.getInputStream(entry)) {
      return new String(in.readAllBytes(), UTF_8);
    }
  }
}
