using System.Globalization;
using Harkbook.Jobs;
using Harkbook.Listening;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;
using Harkbook.Workbench.Desk;
using Microsoft.AspNetCore.Components;

namespace Harkbook.Workbench.Pages;

public partial class FactBench
{
    private const int MostOffers = 6;

    private static readonly (string Words, TempoLevel Level)[] levels =
        [.. TempoLevel.Named.Where(n => n.Level != TempoLevel.Same).Select(n => (n.Name, n.Level))];

    private string said = "";
    private string player = "";
    private string album = "";

    [Parameter, EditorRequired]
    public SongDesk Desk { get; set; } = null!;

    [Parameter, EditorRequired]
    public DeskView View { get; set; } = null!;

    [Parameter, EditorRequired]
    public SongFact Fact { get; set; }

    [Parameter]
    public EventCallback OnClose { get; set; }

    /// <param name="Written">As the song file writes it.</param>
    private sealed record Offer(string Written, string Shown, double? Sure, bool IsNow);

    private string Asks => Fact switch
    {
        SongFact.Tuning => "Another tuning, low to high or by its name",
        SongFact.Capo => "The capo's fret, 0 for none",
        SongFact.Key => "Another key, as D major or A dorian",
        SongFact.Meter => "Another meter, as 3/4",
        SongFact.Harp => "Another harmonica, by its key, as D or low F",
        _ => "What A4 is, in Hz",
    };

    private IEnumerable<string> words => Fact switch
    {
        SongFact.Tuning => TuningWords.Names,
        SongFact.Capo => Enumerable.Range(0, 10).Select(f => f.ToString(CultureInfo.InvariantCulture)),
        SongFact.Harp => Music.Instruments.Harmonicas.Harmonica.UsualKeys.Select(k => $"{k}"),
        SongFact.Meter => ["4/4", "3/4", "6/8", "2/4", "12/8", "9/8"],
        _ => [],
    };

    private IEnumerable<Offer> offers => Fact switch
    {
        SongFact.Tuning => Heard(h => h.Tuning, t => t.Tuning, t => $"{t}", TuningCatalogue.DescribeOnAny, View.Song.Tuning.Value),
        SongFact.Capo => Heard(h => h.Tuning, t => t.Capo, c => CapoText(c.Fret), c => CapoText(c.Fret), View.Song.Capo.Value),
        SongFact.Key => Heard(h => h.MainKey, k => k, k => $"{k}", k => $"{k}", View.Song.Key.Value),
        SongFact.Harp => [new($"{View.Song.Harp?.Value}", $"{View.Song.Harp?.Value}", null, true)],
        SongFact.Meter => Heard(h => h.Meter, m => m, m => $"{m}", m => $"{m}", View.Song.Meter.Value),
        _ => Heard(h => h.ReferencePitch, p => Math.Round(p.Value, 2), Number, p => $"A4 = {Number(p)} Hz",
            Math.Round(View.Song.ReferencePitch.Value.Value, 2)),
    };

    protected override void OnInitialized()
    {
        if (Fact == SongFact.Title)
            (said, player, album) = (View.Song.Title, View.Song.Player ?? "", View.Song.Album ?? "");
    }

    /// <summary>What the song has, then what was heard; candidates that say the same of this fact count together.</summary>
    private IEnumerable<Offer> Heard<TOf, TValue>(Func<Hearing, Distribution<TOf>?> of, Func<TOf, TValue> value, Func<TValue, string> written,
        Func<TValue, string> shown, TValue now) where TValue : notnull
    {
        var heard = View.Heard is { } hearing ? of(hearing)?.Candidates ?? [] : [];
        var sure = heard.GroupBy(c => value(c.Value)).Select(g => (g.Key, Sure: g.Sum(c => c.Confidence))).OrderByDescending(g => g.Sure).Take(MostOffers)
            .ToList();
        double? ofNow = sure.Where(s => s.Key.Equals(now)).Select(s => (double?)s.Sure).FirstOrDefault();
        return sure.Where(s => !s.Key.Equals(now)).Select(s => new Offer(written(s.Key), shown(s.Key), s.Sure, false))
            .Prepend(new(written(now), shown(now), ofNow, true));
    }

    private async Task DecideAsync(string text)
    {
        var fact = Fact;
        var decided = fact == SongFact.Meter ? Meter.TryParse(text.Trim(), out var meter) && await MeterAsync(meter)
            : Written(text.Trim()) is { } written
                ? await Desk.DecideAsync($"{fact.ToString().ToLowerInvariant()} {written}", d => With(d, fact, written))
                : Complain(text);
        if (decided)
            await OnClose.InvokeAsync();
        else if (fact == SongFact.Meter && !Meter.TryParse(text.Trim(), out _))
            Complain(text);
    }

    private SongDocument With(SongDocument document, SongFact fact, string written) => fact == SongFact.Tuning
        ? SongTuned.Of(document, Tuning.Parse(written), View.Heard, default) : document.WithFact(fact, written, Standing.Decided);

    private Task<bool> MeterAsync(Meter meter) => meter == View.Song.Meter.Value
        ? Desk.DecideAsync($"meter {meter}", d => d.WithFact(SongFact.Meter, $"{meter}", Standing.Decided))
        : Desk.DecideAsync($"meter {meter}", d => SongText.Parse(SongRebarring.Of(d, new(TempoLevel.Same, meter)).Text, d.FileName));

    private async Task BarAsync(string words, BarChange change)
    {
        if (await Desk.DecideAsync(words, d => SongText.Parse(SongRebarring.Of(d, change).Text, d.FileName)))
            await OnClose.InvokeAsync();
    }

    private async Task TitleAsync()
    {
        var (title, by, on) = (said.Trim(), player.Trim(), album.Trim());
        if (title.Length > 0 && await Desk.DecideAsync($"title {title}", d => Named(Named(d.WithFact(SongFact.Title, title), SongFact.Player, by),
            SongFact.Album, on)))
            await OnClose.InvokeAsync();
    }

    private static SongDocument Named(SongDocument document, SongFact fact, string text) => text.Length == 0 ? document : document.WithFact(fact, text);

    /// <summary>What the person said as the song file writes it; null where it can't be read.</summary>
    private string? Written(string text) => Fact switch
    {
        SongFact.Tuning => TuningWords.Read(text)?.Tuning.ToString(),
        SongFact.Capo => text is "none" or "0" ? "none" : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var fret) && fret <= 12
            ? $"{fret}" : null,
        SongFact.Harp => text.Length > 0 ? text : null,
        SongFact.Key => Key.TryParse(text, out var key) ? $"{Sounding(key)}" : null,
        _ => double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var hertz) && hertz is >= 380 and <= 500
            ? $"A4 = {Number(hertz)} Hz" : null,
    };

    /// <summary>People name keys as the song does.</summary>
    private Key Sounding(Key key) => CapoNames.Of(View.Song) is { HandFirst: true } names ? key with { Tonic = key.Tonic + names.Raise } : key;

    private bool Complain(string text)
    {
        Desk.Tell(view => view with { Said = $"'{text}' can't be read here. {Asks}." });
        return false;
    }

    private static string CapoText(int fret) => fret == 0 ? "none" : $"{fret}";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
