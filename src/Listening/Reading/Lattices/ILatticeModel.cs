namespace Harkbook.Listening.Reading.Lattices;

/// <summary>
/// What a <see cref="Lattice"/> is laid over: steps, the states that each step may be in, a log score for being in each, and the log scores of
/// going from a state of one step to a state of the next. States of different steps may differ in number.
/// </summary>
internal interface ILatticeModel
{
    int Steps { get; }

    /// <summary>How many states a step has; at least one.</summary>
    int States(int step);

    /// <summary>The log score of being in each state at a step, whatever comes before and after; negative infinity for never.</summary>
    /// <param name="into">As long as the step has states. A lattice asks for a step more than once.</param>
    void Score(int step, Span<double> into);

    /// <summary>How the states of a step are reached from those of the step before. Not asked for step 0.</summary>
    Transitions Into(int step);
}
