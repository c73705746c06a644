/** Tests of many jobs held against each other. */
@org.jspecify.annotations.NullMarked
package tallyback.history;
