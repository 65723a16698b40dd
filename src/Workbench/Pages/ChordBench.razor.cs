using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Units;
using Harkbook.Workbench.Desk;
using Harkbook.Workbench.Sheet;
using Microsoft.AspNetCore.Components;

namespace Harkbook.Workbench.Pages;

public partial class ChordBench
{
    private static readonly ChordDiagramStyle rightHanded = new(9, Foot: StringFoot.SoundingNotes, NameCapo: false);

    private ChordOffer offer = null!;
    private ImmutableArray<Candidate<Chord>> heard = [];
    private List<ShownShape> shapes = [];
    private string looked = "";
    private string said = "";
    private string trouble = "";

    private string Title => string.Create(CultureInfo.InvariantCulture,
        $"Bar {Bar}, beat {At.Value + 1:0.##}: {(offer.Claim is { } claim ? Shown(claim.Value.Name) : "nothing claimed")}");
    private bool everywhere;
    private int like;
    private (Tuning?, Capo, Hearing?, string, bool) drawn;

    [Parameter, EditorRequired]
    public SongDesk Desk { get; set; } = null!;

    [Parameter, EditorRequired]
    public DeskView View { get; set; } = null!;

    [Parameter, EditorRequired]
    public string SongId { get; set; } = "";

    [Parameter, EditorRequired]
    public int Bar { get; set; }

    [Parameter, EditorRequired]
    public Beats At { get; set; }

    /// <summary>Necks are drawn as left-handed players see them.</summary>
    [Parameter]
    public bool LeftHanded { get; set; }

    [Parameter]
    public EventCallback OnClose { get; set; }

    /// <summary>The bar is wanted note by note.</summary>
    [Parameter]
    public EventCallback OnNotes { get; set; }

    /// <summary>An address to sound.</summary>
    [Parameter]
    public EventCallback<string> OnHear { get; set; }

    private sealed record ShownShape(Voicing Voicing, double? Match, Drawing Picture, string Marks);

    private string Standing => offer.Claim is { } claim ? new ChordPicture(claim, claim.Value.Name, default, DoubtOf(claim)).Standing : "";

    private Finding? DoubtOf(Claim<ChordUse> claim) => View.Doubts?.Select(d => d.Finding).FirstOrDefault(
        f => f.Kind == ClaimKind.Chord && f.Where?.Bar == Bar && Math.Abs(f.Where.Beat!.Value - 1 - claim.Start.Value) < 1e-3);

    private string Example => string.Concat(View.Song.Tuning.Value.Strings.Select(_ => '0')) + " or Bm7";

    protected override void OnParametersSet()
    {
        offer = new(View, Bar, At);
        heard = offer.Heard();
        if (looked.Length == 0)
            looked = offer.Claim is { Value.Chord.IsNone: false } claim ? ChordSymbol.Write(claim.Value.Chord)
                : heard.IsEmpty ? "" : heard[0].Value.ToString();
        like = Alike().Count;
        Draw();
    }

    private void Look(string symbol)
    {
        looked = symbol;
        Draw();
    }

    private void Draw()
    {
        // What shapes there are hangs on these alone; to find them takes longer than all else here.
        var asked = (View.Song.Tuning.Value, View.Song.Capo.Value, View.Heard, looked, LeftHanded);
        if (drawn == asked)
            return;
        drawn = asked;
        shapes = looked.Length > 0 && ChordSymbol.TryRead(looked, out var chord) ? [.. offer.Shapes(chord).Select(Shape)] : [];
    }

    private ShownShape Shape(OfferedShape offered)
    {
        var subject = ChordDiagramSubject.Of(View.Song, offered.Voicing.Shape, looked, Music.Songs.Standing.Decided);
        var picture = ChordDiagram.Engrave(subject, rightHanded with { LeftHanded = LeftHanded });
        return new(offered.Voicing, offered.Match, picture, SvgWriter.Marks(picture, OpenSong.Colour));
    }

    private bool IsOwn(Shape shape) => offer.Claim?.Value.Shape?.WithoutFingers() == shape.WithoutFingers();

    private Task KeepAsync() => DecideAsync(ChordSymbol.Write(offer.Claim!.Value.Chord), offer.Claim.Value.Shape);

    private async Task SayAsync()
    {
        trouble = "";
        if (offer.Read(said) is { } read)
            await DecideAsync(read.Name, read.Shape);
        else
            trouble = $"'{said}' is neither a chord's name nor {View.Song.Tuning.Value.Count} frets.";
    }

    private async Task DecideAsync(string symbol, Shape? shape)
    {
        var places = everywhere ? Alike() : [];
        var made = offer;
        if (await Desk.DecideAsync($"bar {Bar}: {Shown(symbol)}{(shape is null ? "" : $" as {shape}")}{(places.Count > 0 ? $", and {places.Count} more" : "")}",
            document => Everywhere(made.Onto(document, symbol, shape), made, places)))
            await OnClose.InvokeAsync();
    }

    /// <summary>The other places in which the same chord is only heard.</summary>
    private List<(int Bar, Beats At)> Alike() => offer.Claim is not { } own ? []
        : [.. View.Song.Bars.SelectMany(b => b.Chords.Where(c => c.Value.Name == own.Value.Name && c.Standing.Kind == StandingKind.Heard)
            .Select(c => (b.Number, c.Start))).Where(place => place != (Bar, own.Start))];

    /// <summary>The same name in the other places too.</summary>
    private static SongDocument Everywhere(SongDocument document, ChordOffer made, List<(int Bar, Beats At)> places)
    {
        var name = document.Song?.Bars.ElementAt(made.Bar - 1).Chords.LastOrDefault(c => c.Start <= made.At)?.Value.Name;
        return name is null ? document : places.Aggregate(document, (d, p) => d.WithChord(p.Bar, p.At, name, Music.Songs.Standing.Decided));
    }

    private string Shown(string name) => CapoNames.Of(View.Song)?.First(name) ?? name;

    private string AddressOf(Shape shape) => $"/sounds/shape?song={Uri.EscapeDataString(SongId)}&frets={Uri.EscapeDataString(shape.ToString())}";

    private static string Ease(Voicing voicing) => voicing.Cost.Parts is [var first, ..] ? first.Name : "easy";

    private static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
