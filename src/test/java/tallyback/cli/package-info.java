/** Tests of the commands: the whole text they print and the code they end with. */
@org.jspecify.annotations.NullMarked
package tallyback.cli;
