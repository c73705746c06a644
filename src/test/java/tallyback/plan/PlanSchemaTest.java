package tallyback.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.TorqueAt;
import tallyback.plan.Plan.Basis;
import tallyback.plan.Plan.FluidBase;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.ThreadState;
import tallyback.plan.Plan.ThreadedInto;

/**
 * The published schema and the reader are the same format; the schema is applied by a validator
 * that is not ours.
 */
class PlanSchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String SCHEMA = "/tallyback/schema/plan.schema.json";

  /**
   * How to reach each section of the schema in a plan: its definition, and a plan with one such
   * section to fill.
   */
  private static final Map<String, String> SECTIONS =
      new TreeMap<>(
          Map.ofEntries(
              Map.entry("machine", "machine: {%s}"),
              Map.entry("person", "people: [{%s}]"),
              Map.entry("fluid", "fluids: [{%s}]"),
              Map.entry("system", "systems: [{%s}]"),
              Map.entry("point", "systems: [{drains: [{%s}]}]"),
              Map.entry("mark", "systems: [{marks: [{%s}]}]"),
              Map.entry("place", "places: [{%s}]"),
              Map.entry("item", "items: [{%s}]"),
              Map.entry("torque", "items: [{torque: {%s}}]"),
              Map.entry("sides", "items: [{torque: {tolerance: {%s}}}]"),
              Map.entry("alignment", "items: [{alignment: {%s}}]"),
              Map.entry("step", "steps: [{%s}]"),
              Map.entry("caution", "steps: [{cautions: [{%s}]}]"),
              Map.entry("instrument", "instruments: [{%s}]"),
              Map.entry("adapter", "instruments: [{adapter: {%s}}]"),
              Map.entry("limit", "limits: [{%s}]")));

  private static JsonNode schema() throws IOException {
    try (InputStream in = PlanReader.class.getResourceAsStream(SCHEMA)) {
      return JSON.readTree(in);
    }
  }

  private static List<String> validate(String yaml) throws IOException {
    Object tree = new Load(LoadSettings.builder().build()).loadFromString(yaml);
    return OutsideValidator.complaints(schema(), JSON.valueToTree(tree));
  }

  private static Set<String> namesOf(JsonNode properties) {
    Set<String> names = new TreeSet<>();
    properties.fieldNames().forEachRemaining(names::add);
    return names;
  }

  private static Set<String> unknownFields(String rest) {
    Set<String> unknown = new TreeSet<>();
    for (PlanFault fault : PlanReader.read("p", "tallyback-plan: 1\nname: a\n" + rest).faults()) {
      if (fault.expected().equals("one of the known fields")) {
        unknown.add(fault.field().substring(fault.field().lastIndexOf('.') + 1));
      }
    }
    return unknown;
  }

  @Test
  void everySectionWithFieldsIsCoveredHere() throws IOException {
    Set<String> sections = new TreeSet<>();
    for (Map.Entry<String, JsonNode> definition : schema().get("$defs").properties()) {
      if (definition.getValue().has("properties")) {
        sections.add(definition.getKey());
      }
    }

    assertEquals(SECTIONS.keySet(), sections);
  }

  /** The reader knows each field of the schema, and reports any other. */
  @TestFactory
  Stream<DynamicTest> readerAndSchemaKnowTheSameFields() {
    return SECTIONS.entrySet().stream()
        .map(
            section ->
                DynamicTest.dynamicTest(
                    section.getKey(),
                    () -> {
                      JsonNode definition = schema().get("$defs").get(section.getKey());
                      Set<String> known = namesOf(definition.get("properties"));
                      List<String> fields = new ArrayList<>();
                      known.forEach(field -> fields.add(field + ": 1"));
                      fields.add("surplus: 1");
                      String rest = section.getValue().formatted(String.join(", ", fields));
                      assertEquals(Set.of("surplus"), unknownFields(rest));
                      assertEquals(known, fieldsTheReaderOffers(section.getValue()));
                    }));
  }

  /** What the reader lists when it meets a field far from all it knows. */
  private static Set<String> fieldsTheReaderOffers(String section) {
    String rest = section.formatted("zzzzzzzzzzzz: 1");
    return PlanReader.read("p", "tallyback-plan: 1\nname: a\n" + rest).faults().stream()
        .filter(fault -> fault.field().endsWith("zzzzzzzzzzzz"))
        .map(
            fault -> new TreeSet<>(List.of(fault.remedy().replace("known here: ", "").split(", "))))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void topLevelFieldsAgree() throws IOException {
    assertEquals(namesOf(schema().get("properties")), fieldsTheReaderOffers("%s"));
  }

  @Test
  void everyFieldIsDescribed() throws IOException {
    for (Map.Entry<String, JsonNode> definition : schema().get("$defs").properties()) {
      JsonNode properties = definition.getValue().path("properties");
      for (Map.Entry<String, JsonNode> field : properties.properties()) {
        String reference = field.getValue().path("$ref").asText("");
        JsonNode target = schema().at(reference.replaceFirst("^#", ""));
        assertTrue(
            field.getValue().has("description") || target.has("description"),
            definition.getKey() + "." + field.getKey());
      }
    }
  }

  @Test
  void wordListsAgree() throws IOException {
    assertEquals(Section.words(MachineState.class), words("/$defs/state"));
    assertEquals(Section.words(Basis.class), words("/$defs/basis"));
    assertEquals(Section.words(Thing.class), words("/$defs/item/properties/thing"));
    assertEquals(Section.words(FluidForm.class), words("/$defs/fluid/properties/form"));
    assertEquals(Section.words(ThreadState.class), words("/$defs/torque/properties/threads"));
    assertEquals(Section.words(ThreadedInto.class), words("/$defs/torque/properties/into"));
    assertEquals(Section.words(FluidBase.class), words("/$defs/fluid/properties/base"));
    assertEquals(Section.words(TorqueAt.class), words("/$defs/adapter/properties/said"));
    assertEquals(Section.words(InstrumentKind.class), words("/$defs/instrument/properties/kind"));
    List<String> measures = new ArrayList<>(Section.words(Measure.class));
    measures.remove("level");
    assertEquals(measures, words("/$defs/limit/properties/measure"));
  }

  private static List<String> words(String pointer) throws IOException {
    List<String> words = new ArrayList<>();
    schema().at(pointer).get("enum").forEach(word -> words.add(word.asText()));
    return words;
  }

  @TestFactory
  Stream<DynamicTest> everyPlanWeShipIsReadWithoutAWordAndValidates() throws IOException {
    List<Path> plans =
        new ArrayList<>(
            List.of(Path.of("demo-data", "plan.yaml"), Path.of("grammars", "names.yaml")));
    try (Stream<Path> seeds = Files.list(Path.of("seeds"))) {
      seeds.filter(each -> each.toString().endsWith(".yaml")).sorted().forEach(plans::add);
    }
    assertTrue(plans.size() >= 3);
    return plans.stream()
        .map(
            file ->
                DynamicTest.dynamicTest(
                    file.toString(),
                    () -> {
                      PlanReading reading = PlanReader.read(file);
                      assertEquals(
                          List.of(), reading.faults().stream().map(PlanFault::text).toList());
                      assertEquals(
                          List.of(), reading.warnings().stream().map(PlanFault::text).toList());
                      assertEquals(List.of(), validate(Files.readString(file)));
                    }));
  }

  @Test
  void theBigPlanValidates() throws IOException {
    assertEquals(List.of(), validate(BigPlan.text()));
  }

  /** No starter plan may contain a torque that somebody could take for a maker's. */
  @Test
  void seedsGiveNoTorque() throws IOException {
    try (Stream<Path> seeds = Files.list(Path.of("seeds"))) {
      for (Path seed : seeds.filter(each -> each.toString().endsWith(".yaml")).toList()) {
        Plan plan = PlanReader.read(seed).plan().orElseThrow();
        assertTrue(plan.items().stream().allMatch(item -> item.torque() == null), seed.toString());
        assertTrue(
            plan.systems().stream().allMatch(each -> each.capacity() == null), seed.toString());
        assertEquals(List.of(), plan.limits(), seed.toString());
      }
    }
  }

  @Test
  void theValidatorRefusesWhatTheReaderRefuses() throws IOException {
    for (String rest :
        List.of(
            "colour: red",
            "items: [{say: [pin], count: 0}]",
            "items: [{say: [pin], count: 2.5}]",
            "items: [{say: [Pin]}]",
            "items: [{say: []}]",
            "items: [{say: [pin], head: 13 mm}]",
            "items: [{say: [pin], thing: blot}]",
            "items: [{say: [pin], renew: yes}]",
            "items: [{say: [pin], thing: pin, torque: {value: 3 N·m}}]",
            "machine: {serial: 7}",
            "steps: [{say: [strip], states: [frozen]}]",
            "places: [{say: [hub]}]\nlimits: [{subject: hub, measure: gap}]",
            "pronunciations: {grommet: G R A0}")) {
      String plan = "tallyback-plan: 1\nname: a\n" + rest + "\n";
      assertFalse(PlanReader.read("p", plan).faults().isEmpty(), rest);
      assertFalse(validate(plan).isEmpty(), rest);
    }
  }

  /**
   * Of the examples of the lint, the schema refuses what it can know, and nothing else: those of
   * the reader but for rings, which are about several fields far apart.
   */
  @TestFactory
  Stream<DynamicTest> theSchemaRefusesTheExamplesOfWhatItCanKnow() throws IOException {
    try (Stream<Path> examples = Files.list(Path.of("src/test/resources/lint"))) {
      List<Path> plans =
          examples.filter(each -> each.toString().endsWith(".yaml")).sorted().toList();
      assertTrue(plans.size() > 20);
      return plans.stream()
          .map(
              file ->
                  DynamicTest.dynamicTest(
                      file.toString(),
                      () -> {
                        String name = file.getFileName().toString();
                        boolean canKnow =
                            name.startsWith("reader~") && !name.equals("reader~cycle.yaml");
                        List<String> complaints = validate(Files.readString(file));
                        assertEquals(canKnow, !complaints.isEmpty(), complaints::toString);
                      }));
    }
  }

  /** What may be left to the manual is the same in the schema and for the reader. */
  @Test
  void openFieldsAgree() throws IOException {
    for (Map.Entry<String, String> section :
        Map.of(
                "item", "items: [{say: [pin], %s}]",
                "system", "systems: [{say: [tank], fluid: oil, %s}]",
                "point", "systems: [{say: [tank], fluid: oil, drains: [{say: [tap], %s}]}]",
                "limit", "places: [{say: [hub]}]\nlimits: [{subject: hub, measure: gap, %s}]")
            .entrySet()) {
      String plan =
          "tallyback-plan: 1\nname: a\n"
              + section.getValue().formatted("from-manual: [zzzzzzzzzzzz]");
      String offered =
          PlanReader.read("p", plan).faults().stream()
              .map(PlanFault::expected)
              .filter(each -> each.startsWith("fields that the manual may fill in: "))
              .findFirst()
              .orElseThrow()
              .replace("fields that the manual may fill in: ", "");
      assertEquals(
          List.of(offered.split(", ")),
          words("/$defs/" + section.getKey() + "/properties/from-manual/oneOf/0"),
          section.getKey());
    }
  }

  @Test
  void theSchemaStandsInTheJarBesideTheOthersUnderItsId() throws IOException {
    try (InputStream in = PlanReader.class.getResourceAsStream(SCHEMA)) {
      assertEquals(
          "https://tallyback.invalid/schema/1/plan.schema.json",
          JSON.readTree(in).get("$id").asText());
    }
  }
}
