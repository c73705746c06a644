/** Tests of the reconciler: the gallery, random jobs, and the cases of each rule. */
@org.jspecify.annotations.NullMarked
package tallyback.reconcile;
