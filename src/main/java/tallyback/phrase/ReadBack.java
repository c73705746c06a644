package tallyback.phrase;

/**
 * How a statement is said back.
 *
 * @param spoken one short line to be spoken: values digit by digit where they could be misheard
 * @param written one short line for tables, values in digits with their unit
 */
public record ReadBack(String spoken, String written) {}
