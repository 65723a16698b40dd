using System.Text.Json;
using CsCheck;
using Harkbook.Listening.Interchange;

namespace Harkbook.Listening.Tests.Interchange;

public class HearingJsonTests
{
    [Fact]
    public void AHearingReadsBackAsItWas() => AnyHearing.Whole.Sample(hearing => AssertSame(hearing, HearingJson.Read(HearingJson.Write(hearing))), iter: 300);

    [Fact]
    public void ASummaryIsReadableJsonWithoutTheEvidence() => AnyHearing.Whole.Sample(hearing =>
    {
        using var summary = JsonDocument.Parse(HearingJson.Write(hearing, rounded: true));
        Assert.False(summary.RootElement.TryGetProperty("evidence", out _));
        Assert.Equal(hearing.Chords.Length, summary.RootElement.GetProperty("chords").GetArrayLength());
        Assert.Equal(hearing.ReferencePitch.Best.Value, summary.RootElement.GetProperty("referencePitch").GetProperty("best").GetDouble(), 5e-7);
    }, iter: 100);

    // docs/tour.md: nothing is ever given more than 99%.
    [Fact]
    public void NothingIsCertainInASummary() => AnyHearing.Whole.Sample(hearing =>
    {
        using var summary = JsonDocument.Parse(HearingJson.Write(hearing with { Tempo = new(new Candidate<double>(90, 1)) }, rounded: true));
        Assert.Equal(0.99, summary.RootElement.GetProperty("tempo").GetProperty("confidence").GetDouble());
        Assert.All(summary.RootElement.GetProperty("beats").EnumerateArray(), beat => Assert.InRange(beat.GetProperty("confidence").GetDouble(), 0, 0.99));
    }, iter: 50);

    [Fact]
    public void ACapoOverAllStringsIsItsFretAndAPartialOneNamesItsStrings() => AnyHearing.Whole.Sample(hearing =>
    {
        using var summary = JsonDocument.Parse(HearingJson.Write(hearing, rounded: true));
        var (capo, written) = (hearing.Tuning.Best.Capo, summary.RootElement.GetProperty("tuning").GetProperty("best").GetProperty("capo"));
        Assert.Equal(capo.Fret, capo.IsPartial ? written.GetProperty("fret").GetInt32() : written.GetInt32());
        if (capo.IsPartial)
            Assert.Equal(capo.OnlyStrings, written.GetProperty("strings").EnumerateArray().Select(s => s.GetInt32()));
    }, iter: 100);

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("[1, 2]")]
    public void WhatIsNoHearingIsSaid(string json) => Assert.ThrowsAny<JsonException>(() => HearingJson.Read(json));

    // A stored Hearing may be damaged in any byte; then it is no Hearing or one that can be used, and never another exception.
    [Fact]
    public void ADamagedHearingIsNeverMoreThanNoHearing() => Gen.Select(AnyHearing.Whole, Gen.Double[0, 1], Gen.Char[' ', '~'], Gen.Bool)
        .Sample((hearing, place, other, cut) =>
    {
        var json = HearingJson.Write(hearing);
        var at = (int)(place * (json.Length - 1));
        var damaged = cut ? json[..at] : json[..at] + other + json[(at + 1)..];
        try
        {
            _ = HearingJson.Read(damaged).Tuning.Best;
        }
        catch (JsonException)
        {
        }
    }, iter: 2000);

    private static void AssertSame(Hearing expected, Hearing read)
    {
        Assert.Equal(expected.Recording, read.Recording);
        Assert.Equal(expected.ReferencePitch.Candidates, read.ReferencePitch.Candidates);
        Assert.Equal(expected.Tempo.Candidates, read.Tempo.Candidates);
        Assert.Equal(expected.Meter.Candidates, read.Meter.Candidates);
        Assert.Equal(expected.Beats, read.Beats);
        Assert.Equal(expected.Keys.Select(k => (k.Start, k.End)), read.Keys.Select(k => (k.Start, k.End)));
        Assert.Equal(expected.Keys.SelectMany(k => k.Key.Candidates), read.Keys.SelectMany(k => k.Key.Candidates));
        Assert.Equal(expected.Notes, read.Notes);
        Assert.Equal(expected.Chords.Select(c => (c.Start, c.End)), read.Chords.Select(c => (c.Start, c.End)));
        Assert.Equal(expected.Chords.SelectMany(c => c.Chord.Candidates), read.Chords.SelectMany(c => c.Chord.Candidates));
        Assert.Equal(expected.Sections, read.Sections);
        Assert.Equal(expected.Tuning.Candidates, read.Tuning.Candidates);
    }
}
