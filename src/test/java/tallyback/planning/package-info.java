/** Tests of plans that are made out of jobs. */
@org.jspecify.annotations.NullMarked
package tallyback.planning;
