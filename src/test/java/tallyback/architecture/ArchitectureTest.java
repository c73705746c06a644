package tallyback.architecture;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static java.util.stream.Collectors.toCollection;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.domain.JavaPackage;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.GeneralCodingRules;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.NullMarked;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tallyback.architecture.PackageTable.Use;

/**
 * Rules on the compiled classes of {@code src/main}. A rule about a package that is not written yet
 * passes; {@link #enoughWasScanned()} keeps that from hiding a scan that found nothing.
 */
class ArchitectureTest {
  /** Raise it as the code grows: far below the truth it guards nothing. */
  private static final int FEWEST_CLASSES = 3;

  /** Pages compiled from {@code src/main/jte}: made by a tool, so it has no package comment. */
  private static final String GENERATED = "tallyback.report.templates";

  private static final List<String> ADAPTERS =
      List.of(
          "tallyback.audio.film",
          "tallyback.log.sqlite",
          "tallyback.speech.program",
          "tallyback.speech.sphinx",
          "tallyback.voice.freetts");

  private static final JavaClasses SCANNED =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages(PackageTable.BASE);

  @Test
  void enoughWasScanned() {
    assertTrue(
        SCANNED.size() >= FEWEST_CLASSES,
        () -> "only " + SCANNED.size() + " classes scanned, expected " + FEWEST_CLASSES);
  }

  @Test
  void everyPackageIsInTheTable() {
    Set<String> unknown =
        SCANNED.stream()
            .filter(type -> !type.getPackageName().equals(PackageTable.BASE))
            .map(PackageTable::partOf)
            .filter(part -> !PackageTable.packages().contains(part))
            .collect(toCollection(TreeSet::new));
    assertEquals(Set.of(), unknown, "packages missing from the table of who may use whom");
  }

  @TestFactory
  Stream<DynamicTest> usesOnlyWhatTheTableAllows() {
    return PackageTable.packages().stream()
        .map(
            part ->
                DynamicTest.dynamicTest(
                    part + " -> " + PackageTable.describeUsesOf(part),
                    () -> usesOnlyItsRow(part).check(SCANNED)));
  }

  @Test
  void basePackageHoldsNoCode() {
    classes()
        .that()
        .resideInAPackage(PackageTable.BASE)
        .should()
        .haveSimpleName("package-info")
        .check(SCANNED);
  }

  @Test
  void noCycles() {
    slices()
        .matching("tallyback.(*)..")
        .should()
        .beFreeOfCycles()
        .allowEmptyShould(true)
        .check(SCANNED);
  }

  @Test
  void nobodyUsesTheCommands() {
    nobodyOutside("tallyback.cli..").mayUse("tallyback.cli..");
  }

  @Test
  void onlyTheCommandsUseThePage() {
    nobodyOutside("tallyback.web..", "tallyback.cli..").mayUse("tallyback.web..");
  }

  @Test
  void recogniserLibraryOnlyInItsAdapter() {
    nobodyOutside("tallyback.speech.sphinx..").mayUse("edu.cmu.sphinx..");
  }

  @Test
  void programsAreStartedOnlyAsASecondRecogniserAndForFilms() {
    noClasses()
        .that()
        .resideOutsideOfPackages("tallyback.speech.program..", "tallyback.audio.film..")
        .should()
        .dependOnClassesThat()
        .areAssignableTo(ProcessBuilder.class)
        .orShould()
        .dependOnClassesThat()
        .areAssignableTo(Process.class)
        .check(SCANNED);
  }

  @Test
  void voiceLibraryOnlyInItsAdapter() {
    nobodyOutside("tallyback.voice.freetts..").mayUse("com.sun.speech..");
  }

  @Test
  void databaseOnlyInItsAdapter() {
    nobodyOutside("tallyback.log.sqlite..").mayUse("org.sqlite..", "java.sql..", "javax.sql..");
  }

  @Test
  void yamlReaderOnlyInPlan() {
    nobodyOutside("tallyback.plan..").mayUse("org.snakeyaml..", "org.yaml.snakeyaml..");
  }

  /** The voice's library hands over its sound as that package describes it. */
  @Test
  void soundCardOnlyInAudioAndItsFormatInTheVoice() {
    nobodyOutside("tallyback.audio..", "tallyback.voice.freetts..").mayUse("javax.sound..");
  }

  @Test
  void serverLibraryOnlyInThePage() {
    nobodyOutside("tallyback.web..").mayUse("io.javalin..", "org.eclipse.jetty..", "jakarta..");
  }

  /** Nobody else may see where a photo was taken, or unpack a picture whose size nobody read. */
  @Test
  void photoLibrariesOnlyInPhotos() {
    nobodyOutside("tallyback.photo..").mayUse("com.drew..", "com.adobe..");
    // Reports write the square code of the seal as a picture, and read none.
    nobodyOutside("tallyback.photo..", "tallyback.report").mayUse("javax.imageio..");
  }

  @Test
  void calendarLibraryOnlyInExports() {
    nobodyOutside("tallyback.export..").mayUse("biweekly..");
  }

  @Test
  void certificatesOnlyWhereAPhoneIsLetIn() {
    nobodyOutside("tallyback.web.lan..").mayUse("org.bouncycastle..");
  }

  @Test
  void squareCodesAreMadeInOnePlace() {
    nobodyOutside("tallyback.report").mayUse("com.google.zxing..");
  }

  @Test
  void paperLibraryOnlyWherePagesBecomePaper() {
    nobodyOutside("tallyback.report.pdf..")
        .mayUse("com.openhtmltopdf..", "org.apache.pdfbox..", "org.apache.fontbox..");
  }

  @Test
  void commandLineLibraryOnlyInCommands() {
    nobodyOutside("tallyback.cli..").mayUse("picocli..");
  }

  @Test
  void adaptersAreReachedOnlyByWhoeverWiresThem() {
    for (String adapter : ADAPTERS) {
      nobodyOutside(adapter + "..", "tallyback.app..", "tallyback.web..", "tallyback.cli..")
          .mayUse(adapter + "..");
    }
  }

  @Test
  void anAdapterShowsOneFactoryAndNothingElse() {
    for (String adapter : ADAPTERS) {
      List<String> shown =
          SCANNED.stream()
              .filter(resideInAPackage(adapter + ".."))
              .filter(JavaClass::isTopLevelClass)
              .filter(type -> type.getModifiers().contains(JavaModifier.PUBLIC))
              .map(JavaClass::getSimpleName)
              .sorted()
              .toList();
      assertTrue(shown.size() <= 1, () -> adapter + " shows more than its factory: " + shown);
    }
  }

  @Test
  void theDomainReadsNoFileNoClockAndDrawsNoNumbers() {
    noClasses()
        .that(arePure())
        .should()
        .dependOnClassesThat(doInputOutputOrChance())
        .orShould()
        .accessTargetWhere(asksTheMachine())
        .because("what the domain computes must be the same whenever and wherever it is computed")
        .allowEmptyShould(true)
        .check(SCANNED);
  }

  @Test
  void amountsOfTheModelAreExact() {
    fields()
        .that()
        .areDeclaredInClassesThat(resideInAPackage("tallyback.model.."))
        .should()
        .notHaveRawType(describe("double or float", ArchitectureTest::isFloatingPoint))
        .because("what is stored or compared is exact")
        .allowEmptyShould(true)
        .check(SCANNED);
  }

  @Test
  void onlyTheCommandsPrint() {
    GeneralCodingRules.NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS
        .allowEmptyShould(true)
        .check(SCANNED.that(describe("not cli", type -> !"cli".equals(PackageTable.partOf(type)))));
  }

  @Test
  void everyPackageSaysWhatItIsForAndIsNullMarked() {
    List<String> bare = new ArrayList<>();
    for (JavaPackage one : SCANNED.getDefaultPackage().getSubpackagesInTree()) {
      boolean holdsClasses = one.getClasses().stream().anyMatch(PackageTable::isOurs);
      if (holdsClasses
          && !one.getName().equals(GENERATED)
          && !one.isAnnotatedWith(NullMarked.class)) {
        bare.add(one.getName());
      }
    }
    assertEquals(List.of(), bare, "packages without a @NullMarked package-info.java");
  }

  private static ArchRule usesOnlyItsRow(String part) {
    DescribedPredicate<JavaClass> allowed =
        describe(
            PackageTable.describeUsesOf(part) + ", and libraries",
            type ->
                !PackageTable.isOurs(type)
                    || PackageTable.partOf(type).equals(part)
                    || PackageTable.usesOf(part).stream()
                        .map(Use::classes)
                        .anyMatch(use -> use.test(type)));
    return classes()
        .that(describe("are in " + part, type -> PackageTable.partOf(type).equals(part)))
        .should()
        .onlyDependOnClassesThat(allowed)
        .allowEmptyShould(true);
  }

  /** Written so that a rule reads as one sentence. */
  private record Outside(List<String> insiders) {
    void mayUse(String... used) {
      noClasses()
          .that()
          .resideOutsideOfPackages(insiders.toArray(String[]::new))
          .should()
          .dependOnClassesThat(resideInAnyPackage(used))
          .allowEmptyShould(true)
          .check(SCANNED);
    }
  }

  private static Outside nobodyOutside(String... insiders) {
    return new Outside(List.of(insiders));
  }

  private static DescribedPredicate<JavaClass> arePure() {
    return describe(
        "are in " + PackageTable.PURE,
        type -> PackageTable.PURE.contains(PackageTable.partOf(type)));
  }

  private static DescribedPredicate<JavaClass> doInputOutputOrChance() {
    Set<String> chance =
        Set.of(
            "java.util.Random",
            "java.util.SplittableRandom",
            "java.util.concurrent.ThreadLocalRandom",
            "java.security.SecureRandom",
            "java.time.Clock");
    return describe(
        "do input or output, read a clock or draw random numbers",
        type ->
            chance.contains(type.getName())
                || type.getPackageName().startsWith("java.nio.file")
                || type.getPackageName().startsWith("java.nio.channels")
                || type.getPackageName().startsWith("java.net")
                || type.getPackageName().startsWith("java.util.random")
                || (type.getPackageName().equals("java.io")
                    && !type.getName().equals("java.io.Serializable")));
  }

  private static DescribedPredicate<JavaAccess<?>> asksTheMachine() {
    return describe(
        "ask the machine for the time, its place or a random number",
        access -> {
          AccessTarget target = access.getTarget();
          String owner = target.getOwner().getName();
          return switch (target.getName()) {
            case "now" -> owner.startsWith("java.time");
            case "currentTimeMillis", "nanoTime", "getenv", "getProperty" ->
                owner.equals("java.lang.System");
            case "random" -> owner.equals("java.lang.Math");
            case "randomUUID" -> owner.equals("java.util.UUID");
            case "systemDefault" -> owner.equals("java.time.ZoneId");
            case "getDefault" ->
                owner.equals("java.util.Locale") || owner.equals("java.util.TimeZone");
            case "shuffle" -> owner.equals("java.util.Collections");
            default -> false;
          };
        });
  }

  private static boolean isFloatingPoint(JavaClass type) {
    return Set.of("double", "float", "java.lang.Double", "java.lang.Float", "double[]", "float[]")
        .contains(type.getName());
  }
}
