using System.Collections.Immutable;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Reads a whole song; null when a fact that it can't do without is missing or wrong.</summary>
internal sealed class SongReader(SongSyntax syntax, DiagnosticBag bag)
{
    private readonly StandingReader standings = new(bag);

    public Song? Read()
    {
        new OutlineReader(syntax, bag).Read();
        var facts = new FactReader(syntax, bag, standings);
        var (title, player, album, recording) = (facts.Title(), facts.Player(), facts.Album(), facts.Recording());
        var (pitch, tuning, tempo, key, harp) = (facts.Pitch(), facts.Tuning(), facts.Tempo(), facts.Key(), facts.Harp());
        var (capo, meter) = (facts.Capo(tuning?.Value), facts.Meter());
        var (counting, tune) = (facts.Counting(), facts.TunePlayer());
        facts.SayWhatIsAssumed();
        var shapes = new ShapeReader(syntax, bag, standings).Read(tuning?.Value, capo?.Value ?? Capo.None);
        new PatternReader(syntax, bag, standings, tuning?.Value, meter?.Value ?? Meter.CommonTime).Read();
        new SectionReader(syntax, bag, standings, tuning?.Value).Read();
        var sections = BuildSections(meter?.Value ?? Meter.CommonTime, tuning?.Value, shapes, recording?.Length);
        CheckTune();
        CheckHarp(harp);
        var hand = facts.HandNames(capo?.Value ?? Capo.None);
        if (hand && key is not null && capo is not null)
            syntax.HandNames = CapoNames.RaiseFrom(key.Value, capo.Value);
        if (tuning is not null && capo is not null && key is not null)
            new ShapeCheck(syntax, bag, tuning.Value, capo.Value, key.Value).Check(shapes);
        if (title is null || pitch is null || tuning is null || capo is null || meter is null || tempo is null || key is null)
            return null;
        var written = new Song
        {
            Title = title,
            Player = player,
            Album = album,
            Recording = recording,
            ReferencePitch = pitch,
            Tuning = tuning,
            Capo = capo,
            Meter = meter,
            Tempo = tempo,
            Counting = counting,
            Key = key,
            TunePlayer = tune,
            Harp = harp,
            Shapes = shapes,
            Sections = sections,
            HandNames = syntax.HandNames,
        };
        CheckEnd(written);
        return syntax.HandNames is { } raise ? SongTransposition.NamesOf(written, raise) : written;
    }

    private ImmutableArray<Section> BuildSections(Meter meter, Tuning? tuning, ImmutableArray<NamedShape> shapes, Seconds? recordingLength)
    {
        var anchors = new AnchorReader(bag, standings, recordingLength, meter);
        var builder = new SectionBuilder(new(bag, shapes), new(bag, tuning), meter);
        var sections = ImmutableArray.CreateBuilder<Section>();
        var number = 1;
        foreach (var section in syntax.Sections)
        {
            PatternRules.Check(section, bar => section.MeterOf(bar, meter), bag);
            CellRules.Check(section, bar => section.MeterOf(bar, meter), bag);
            BondRules.Check(section, bar => section.MeterOf(bar, meter), bag);
            sections.Add(builder.Build(section, number, anchors.Read(section, number)));
            number += sections[^1].Bars.Length;
        }
        return sections.ToImmutable();
    }

    private void CheckEnd(Song song)
    {
        if (song.Recording?.Length is not { } end || BarsPastEnd.Of(song, end) is not { } past)
            return;
        var section = syntax.Sections.Last(s => song.Sections[syntax.Sections.IndexOf(s)].Bars is [var first, ..] && first.Number <= past.First);
        bag.Add(DiagnosticCode.BarsPastEnd, section.Header.Keyword.Span, past.ToString(), BarsPastEnd.WhatToDo);
    }

    private void CheckTune()
    {
        var section = syntax.Sections.FirstOrDefault(s => s.TunePlayerSaid is null && s.Lines.Any(l => l.Voice.Part == SongPart.Tune));
        if (section is not null && !syntax.Facts.ContainsKey(SongFact.Tune))
            bag.Add(DiagnosticCode.NoTunePlayer, section.Lines.First(l => l.Voice.Part == SongPart.Tune).Line.Keyword.Span,
                "No line says who sings or plays the tune, so a voice is assumed.", "Write tune voice, whistle, fiddle or lead guitar before the sections.");
    }

    private void CheckHarp(Fact<HarpReference>? harp)
    {
        var line = syntax.Sections.SelectMany(s => s.Lines).FirstOrDefault(l => l.Voice.Part == SongPart.Harp);
        if (harp is null && line is not null)
            bag.Add(DiagnosticCode.NoHarp, line.Line.Keyword.Span,
                "The harp plays, but no line before the sections says which harp, so its notes have no pitch.", "Write, for instance, harp D richter.");
    }
}
