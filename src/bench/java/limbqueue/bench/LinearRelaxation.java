package limbqueue.bench;

import com.google.ortools.linearsolver.MPConstraint;
import com.google.ortools.linearsolver.MPSolver;
import com.google.ortools.linearsolver.MPVariable;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpModelProto;
import com.google.ortools.sat.LinearConstraintProto;
import java.util.ArrayList;
import java.util.List;

/** A model of CP-SAT in which what must be whole need not be: no plan can be better than its optimum, and that is found soon. */
final class LinearRelaxation {

    private static final double ROUNDING = 1e-4;

    private final CpModelProto model;
    private final MPSolver solver = MPSolver.createSolver("GLOP");
    private final List<MPVariable> variables = new ArrayList<>();

    private LinearRelaxation(CpModelProto model) {
        this.model = model;
        for (var variable : model.getVariablesList()) {
            var domain = variable.getDomainList();
            variables.add(solver.makeVar(limit(domain.getFirst()), limit(domain.getLast()), false, ""));
        }
    }

    /**
     * The least that the goal of {@code model} can come to, rounded up, since the goal is whole.
     *
     * @throws IllegalStateException if it is not found
     */
    static long least(CpModel model) {
        return new LinearRelaxation(model.model()).least();
    }

    private long least() {
        for (var constraint : model.getConstraintsList()) {
            switch (constraint.getConstraintCase()) {
                case EXACTLY_ONE -> sum(constraint.getExactlyOne().getLiteralsList(), 1, 1);
                case BOOL_OR -> anyOf(constraint.getBoolOr().getLiteralsList(), constraint.getEnforcementLiteralList());
                case BOOL_AND -> {
                    for (var literal : constraint.getBoolAnd().getLiteralsList()) {
                        anyOf(List.of(literal), constraint.getEnforcementLiteralList());
                    }
                }
                case LINEAR -> linear(constraint.getLinear());
                default -> throw new IllegalStateException("no row is known for " + constraint.getConstraintCase());
            }
        }
        var goal = solver.objective();
        goal.setMinimization();
        goal.setOffset(model.getObjective().getOffset());
        for (var i = 0; i < model.getObjective().getVarsCount(); i++) {
            var variable = variables.get(model.getObjective().getVars(i));
            goal.setCoefficient(
                    variable,
                    goal.getCoefficient(variable) + model.getObjective().getCoeffs(i));
        }
        var status = solver.solve();
        if (status != MPSolver.ResultStatus.OPTIMAL) {
            throw new IllegalStateException("the relaxation has no optimum: " + status);
        }
        return (long) Math.ceil(goal.value() - ROUNDING);
    }

    /** One of {@code literals} holds where all of {@code when} do. */
    private void anyOf(List<Integer> literals, List<Integer> when) {
        var all = new ArrayList<>(literals);
        when.forEach(literal -> all.add(-literal - 1));
        sum(all, 1, Double.POSITIVE_INFINITY);
    }

    /** So many of {@code literals} hold; one below 0 stands for the contrary of the variable whose complement it is. */
    private void sum(List<Integer> literals, double least, double most) {
        var contraries = literals.stream().filter(literal -> literal < 0).count();
        var row = solver.makeConstraint(least - contraries, most - contraries);
        for (var literal : literals) {
            add(row, literal >= 0 ? literal : -literal - 1, literal >= 0 ? 1 : -1);
        }
    }

    private void linear(LinearConstraintProto linear) {
        var row = solver.makeConstraint(limit(linear.getDomainList().getFirst()), limit(linear.getDomainList().getLast()));
        for (var i = 0; i < linear.getVarsCount(); i++) {
            add(row, linear.getVars(i), linear.getCoeffs(i));
        }
    }

    private void add(MPConstraint row, int variable, long times) {
        var of = variables.get(variable);
        row.setCoefficient(of, row.getCoefficient(of) + times);
    }

    private static double limit(long domain) {
        return domain == Long.MIN_VALUE
                ? Double.NEGATIVE_INFINITY
                : domain == Long.MAX_VALUE ? Double.POSITIVE_INFINITY : (double) domain;
    }
}
