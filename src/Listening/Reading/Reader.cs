using System.Runtime.CompilerServices;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Listening.Reading.Harmony;

namespace Harkbook.Listening.Reading;

/// <summary>
/// Reads evidence: the likeliest beats, keys, chords, sections, tuning and strings given what the sound says and what a person claims. No sound is
/// needed. What a claim doesn't bear on is taken over from the reading before, so reading again costs only what hangs on the claim.
/// </summary>
public static class Reader
{
    /// <summary>What of reading beats doesn't hang on claims, as long as the evidence is there.</summary>
    private static readonly ConditionalWeakTable<SoundEvidence, BeatReading> BeatReadings = [];

    /// <summary>Reads evidence for the first time.</summary>
    public static Hearing Read(Recording recording, SoundEvidence evidence, Claims claims, CancellationToken ct = default)
    {
        var blank = new Hearing
        {
            Recording = recording,
            ReferencePitch = Told.Or(claims.ReferencePitch, evidence.ReferencePitch),
            Tempo = new(new Candidate<double>(0, 0)),
            Meter = new(new Candidate<Music.Theory.Meter>(Music.Theory.Meter.CommonTime, 0)),
            Beats = [],
            Keys = [],
            Notes = new NotePicker(evidence.Picking).Pick(evidence.Notes),
            Chords = [],
            Sections = [],
            Tuning = new(new Candidate<HeardTuning>(new(Music.Instruments.Strings.Tuning.Standard, Music.Instruments.Strings.Capo.None, null), 0)),
            Evidence = evidence,
            Claims = claims,
        };
        return Read(blank, before: null, ct);
    }

    /// <summary>
    /// The same evidence read with other claims. Pitches stay counted from the A4 that the evidence was heard about
    /// (<see cref="SoundEvidence.HeardAbout"/>): another one needs the sound.
    /// </summary>
    public static Hearing Again(Hearing before, Claims claims, CancellationToken ct = default) =>
        Read(before with { Claims = claims, ReferencePitch = Told.Or(claims.ReferencePitch, before.Evidence.ReferencePitch) }, before, ct);

    /// <param name="before">Null for the first time.</param>
    private static Hearing Read(Hearing hearing, Hearing? before, CancellationToken ct)
    {
        hearing = Beats(hearing, before, ct);
        hearing = Harmony(hearing, before, ct);
        hearing = Lines(hearing, before);
        hearing = Plain(hearing, before);
        hearing = Sections(hearing, before);
        hearing = Guitar(hearing, before, ct);
        return Strings(hearing, before, ct);
    }

    private static Hearing Beats(Hearing hearing, Hearing? before, CancellationToken ct)
    {
        var claims = hearing.Claims;
        if (before is not null && before.Claims.Beats.SequenceEqual(claims.Beats) && before.Claims.Tempo == claims.Tempo && before.Claims.Meter == claims.Meter)
            return hearing;
        var reading = BeatReadings.GetValue(hearing.Evidence, evidence => new(evidence.Pulse, hearing.Notes, cancellation: ct));
        var read = new BeatEstimator().Read(reading, claims, ct);
        return hearing with { Beats = read.Beats, Tempo = read.Tempo, Meter = read.Meter };
    }

    private static Hearing Harmony(Hearing hearing, Hearing? before, CancellationToken ct)
    {
        var claims = hearing.Claims;
        if (before is not null && before.Beats == hearing.Beats && before.Claims.Keys.SequenceEqual(claims.Keys)
            && before.Claims.Chords.SequenceEqual(claims.Chords))
            return hearing;
        var kept = before is not null && before.Beats == hearing.Beats ? before.Harmony?.Weighed : null;
        var harmony = Harmony(hearing, kept, ct);
        return hearing with { Keys = harmony.Keys, Chords = harmony.Chords, Harmony = harmony };
    }

    /// <summary>Keys and chords of a hearing with its beats and claims.</summary>
    /// <param name="kept">What its spans say, where that was weighed before.</param>
    internal static ReadHarmony Harmony(Hearing hearing, WeighedChords? kept = null, CancellationToken ct = default)
    {
        var reader = hearing.Evidence.IsClassical ? HarmonyReader.ByRules() : HarmonyReader.Trained();
        return reader.Read(kept ?? reader.Weigh(hearing.Evidence.Notes, hearing.Beats, ct), hearing.Recording.Length, hearing.Claims);
    }

    private static Hearing Lines(Hearing hearing, Hearing? before)
    {
        var claims = hearing.Claims;
        return before is not null && before.Keys == hearing.Keys && before.Claims.HarpKey == claims.HarpKey && before.Claims.Absent.SequenceEqual(claims.Absent)
            ? hearing
            : hearing with { Lines = LineEstimator.Of(hearing.Evidence.Lines, hearing.Keys, claims.HarpKey, claims.Absent) };
    }

    private static Hearing Plain(Hearing hearing, Hearing? before) =>
        before is not null && before.Harmony == hearing.Harmony && before.Lines == hearing.Lines
            ? hearing
            : hearing with { Chords = new PlainChords(hearing.Evidence.Notes, hearing.Lines).Of(hearing.Harmony?.Chords ?? hearing.Chords) };

    private static Hearing Sections(Hearing hearing, Hearing? before) =>
        before is not null && before.Beats == hearing.Beats && before.Lines == hearing.Lines && before.Claims.Borders.SequenceEqual(hearing.Claims.Borders)
            ? hearing
            : hearing with
            {
                Sections = new FormEstimator().Read(hearing.Evidence.Colour, hearing.Beats, hearing.Notes, hearing.Lines, hearing.Claims.Borders),
            };

    private static Hearing Guitar(Hearing hearing, Hearing? before, CancellationToken ct)
    {
        var (claims, key) = (hearing.Claims, hearing.MainKey!.Best);
        return before is not null && before.MainKey?.Best == key && before.Claims.Tuning == claims.Tuning && before.Claims.Capo == claims.Capo
                && before.Claims.Reach == claims.Reach
            ? hearing
            : hearing with { Tuning = new TuningEstimator(new() { Hand = HandOf(claims) }).Estimate(hearing.Notes, key, claims.Tuning, claims.Capo,
                StiffNotes.Of(hearing.Evidence.Stiffness, hearing.Notes), ct) };
    }

    private static Hearing Strings(Hearing hearing, Hearing? before, CancellationToken ct) =>
        before is not null && before.Tuning.Best == hearing.Tuning.Best && before.Claims.Reach == hearing.Claims.Reach
            ? hearing
            : hearing with { Notes = new FrettingEstimator(hand: HandOf(hearing.Claims)).Estimate(hearing.Notes, hearing.Tuning.Best,
                StiffNotes.Of(hearing.Evidence.Stiffness, hearing.Notes), ct) };

    private static Hand HandOf(Claims claims) => claims.Reach is { } reach ? Hand.Usual with { LongestReach = reach } : Hand.Usual;
}
