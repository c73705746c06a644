package tallyback.phrase;

import java.util.List;

/**
 * One grammar file as read.
 *
 * @param source the name of the file
 * @param grammar the name the grammar gives itself
 * @param rules its rules, in order; of a faulty file, those that could be read
 * @param faults everything that could not be read
 */
record JsgfFile(String source, String grammar, List<JsgfRule> rules, List<GrammarFault> faults) {

  JsgfFile {
    rules = List.copyOf(rules);
    faults = List.copyOf(faults);
  }
}
