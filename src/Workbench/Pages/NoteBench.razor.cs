using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Checking;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;
using Harkbook.Workbench.Desk;
using Harkbook.Workbench.Sheet;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;

namespace Harkbook.Workbench.Pages;

public partial class NoteBench
{
    private const int MostUnwritten = 8, HighestTyped = 24;

    private static readonly (SongPart Part, string Words)[] more = [(SongPart.Tune, "the tune"), (SongPart.Harp, "a harmonica")];

    private readonly HashSet<SongPart> parts = [];
    private NoteGrid grid = null!;
    private (int Row, int Column) cursor;
    private (int Row, int Column)? carried;
    private ImmutableArray<NoteOffer> offers = [];
    private ImmutableArray<NoteSign> signs = [];
    private string said = "", trouble = "", typed = "", harp = "";
    private bool all, focusing = true;
    private int divisions;
    private (DeskView?, int) shown;

    [Parameter, EditorRequired]
    public SongDesk Desk { get; set; } = null!;

    [Parameter, EditorRequired]
    public DeskView View { get; set; } = null!;

    [Parameter, EditorRequired]
    public string SongId { get; set; } = "";

    /// <summary>Through the song.</summary>
    [Parameter, EditorRequired]
    public int Bar { get; set; }

    [Parameter]
    public EventCallback OnClose { get; set; }

    /// <summary>The bar that the cursor leaves for.</summary>
    [Parameter]
    public EventCallback<int> OnBar { get; set; }

    [Parameter]
    public EventCallback<string> OnHear { get; set; }

    /// <summary>The place that the cursor is on is to take the keys.</summary>
    [Parameter]
    public EventCallback OnFocus { get; set; }

    private NoteRow At => grid.Rows[cursor.Row];

    private NoteCell Now => At.Cells[cursor.Column];

    private string? Sign => Now.Sign;

    private NotePlace Place => PlaceOf(cursor.Row, cursor.Column);

    private string Where => $"{At.Label}, {grid.Spoken(cursor.Column)}:";

    protected override void OnParametersSet()
    {
        if (shown == (View, Bar))
            return;
        var moved = shown.Item2 != Bar && shown.Item1 is not null;
        shown = (View, Bar);
        Draw();
        if (moved)
            (trouble, typed) = ("", "");
    }

    protected override async Task OnAfterRenderAsync(bool first)
    {
        if (!focusing)
            return;
        focusing = false;
        await OnFocus.InvokeAsync();
    }

    private void Draw()
    {
        var row = grid is null ? null : At;
        grid = new(View, Bar, divisions, parts);
        var at = row is null ? grid.Rows.IndexOf(grid.Rows.First(r => r.Part == SongPart.Pick))
            : Math.Max(0, grid.Rows.ToList().FindIndex(r => r.Part == row.Part && r.StringIndex == row.StringIndex));
        cursor = (at, Math.Clamp(cursor.Column, 0, grid.Columns - 1));
        Offer();
    }

    private void Offer()
    {
        offers = NoteOffer.Of(View, Bar, At, grid.At(cursor.Column), grid.At(cursor.Column + 1));
        signs = Sign is { } sign ? NoteSign.Of(At.Part, sign) : [];
        said = Sign ?? "";
    }

    private void Divide(int into)
    {
        cursor = (cursor.Row, cursor.Column * into / grid.Divisions);
        divisions = into;
        Draw();
    }

    private void With(SongPart part)
    {
        parts.Add(part);
        Draw();
        Point(grid.Rows.ToList().FindIndex(r => r.Part == part), cursor.Column);
    }

    private void Point(int row, int column)
    {
        Arrive(row, column);
        focusing = true;
    }

    private void Arrive(int row, int column)
    {
        if (cursor == (row, column))
            return;
        (cursor, trouble, typed) = ((row, column), "", "");
        Offer();
    }

    private async Task KeyAsync(KeyboardEventArgs pressed)
    {
        if (pressed.CtrlKey || pressed.AltKey || pressed.MetaKey)
            return;
        if (Step(pressed.Key) is var (down, right))
            await (pressed.ShiftKey ? MoveAsync(down, right) : GoAsync(down, right));
        else if (pressed.Key is "Delete" or "Backspace")
            await PutAsync(".");
        else if (pressed.Key is "." or "_")
            await PutAsync("_");
        else if (pressed.Key == "Enter")
            await (Sign is null && Now.Heard is { } heard ? TakeAsync(heard) : HearAsync());
        else if (pressed.Key is "Home" or "End")
            Point(cursor.Row, pressed.Key == "Home" ? 0 : grid.Columns - 1);
        else if (pressed.Key is [>= '0' and <= '9'] && At.Part != SongPart.Tune)
            await FigureAsync(pressed.Key);
        else if (At.Part == SongPart.Tune && pressed.Key is [(>= 'a' and <= 'g') or (>= 'A' and <= 'G')])
            await PitchAsync(pressed.Key.ToUpperInvariant());
        else if (signs.FirstOrDefault(s => s.Key.Equals(pressed.Key, StringComparison.OrdinalIgnoreCase)) is { } sign)
            await PutAsync(sign.Turned);
        else if (pressed.Key.Equals("x", StringComparison.OrdinalIgnoreCase) && At.Part == SongPart.Pick)
            await PutAsync("x");
    }

    private static (int Down, int Right)? Step(string key) => key switch
    {
        "ArrowUp" => (-1, 0),
        "ArrowDown" => (1, 0),
        "ArrowLeft" => (0, -1),
        "ArrowRight" => (0, 1),
        _ => null,
    };

    private async Task GoAsync(int down, int right)
    {
        var (row, column) = (Math.Clamp(cursor.Row + down, 0, grid.Rows.Length - 1), cursor.Column + right);
        if (column >= 0 && column < grid.Columns)
        {
            Point(row, column);
            return;
        }
        if (Bar + right < 1 || Bar + right > View.Song.Bars.Count())
            return;
        (cursor, focusing) = ((row, right > 0 ? 0 : int.MaxValue), true);
        await OnBar.InvokeAsync(Bar + right);
    }

    /// <summary>A figure behind a figure that was typed here makes a number of both: 1, 2 is 12.</summary>
    private async Task FigureAsync(string figure)
    {
        var both = typed + figure;
        typed = int.Parse(both, CultureInfo.InvariantCulture) <= HighestTyped ? both : figure;
        var number = int.Parse(typed, CultureInfo.InvariantCulture);
        if (At.Part == SongPart.Harp)
            await PutAsync((Sign ?? LastBreath()).StartsWith('-') ? $"-{number}" : $"+{number}");
        else
            await PutAsync(PickedText.Of(Sign is { } sign && PickedText.Read(sign, At.StringIndex).Note is { IsMuted: false, TouchedAt: null } note
                && note.CanMoveTo(number) ? note.MovedTo(note.StringIndex, number) : new(At.StringIndex, number)));
    }

    private string LastBreath() => View.Song.Bars.Take(Bar).SelectMany(b => b.Harp).LastOrDefault()?.Value.ToString() ?? "+";

    /// <summary>The nearest note of a letter, with the key's sign.</summary>
    private Task PitchAsync(string letter)
    {
        var near = offers.OrderBy(o => Math.Abs(offers.IndexOf(o) - offers.Length / 2)).Select(o => o.Written).Where(w => w.StartsWith(letter,
            StringComparison.Ordinal)).ToList();
        var key = View.Song.KeyAt(Bar);
        return near.OrderBy(w => Pitch.TryParse(w, out var p) && key.Contains(p.Name) ? 0 : 1).FirstOrDefault() is { } written ? PutAsync(written)
            : Task.CompletedTask;
    }

    private async Task PutAsync(string written)
    {
        var (place, label, spoken) = (Place, At.Label, grid.Spoken(cursor.Column));
        var words = written switch { "." => $"nothing on {label}", "_" => $"{label} silent", _ => $"{written} on {label}" };
        var kept = typed;
        await DecideAsync($"bar {Bar}, {spoken}: {words}", d => Put(d, place, written));
        typed = kept;
    }

    private static SongDocument Put(SongDocument document, NotePlace place, string written) => written switch
    {
        "." => document.WithNothing(place),
        "_" => document.WithSilence(place),
        _ when place.Part == SongPart.Tune && TuneNote.TryParse(written, out var note) => document.WithTune(place.Bar, place.At, note),
        _ => document.WithNote(place, written),
    };

    private Task SayAsync() => said.Trim() is { Length: > 0 } written ? PutAsync(written) : PutAsync(".");

    private async Task NameHarpAsync()
    {
        if (harp.Trim() is { Length: > 0 } named)
            await DecideAsync($"harp {named}", d => d.WithFact(SongFact.Harp, named, Standing.Decided));
    }

    private async Task TakeAsync(UnwrittenNote note)
    {
        var (bar, place) = (Bar, note.Place!.Value);
        await DecideAsync($"bar {Bar}, {grid.Spoken(ColumnOf(note))}: {PitchOf(note)} as it was heard",
            d => d.WithPicked(bar, note.At, new(place.StringIndex, place.Fret)));
        Point(grid.Rows.ToList().FindIndex(r => r.StringIndex == place.StringIndex && r.Part == SongPart.Pick), ColumnOf(note));
    }

    private async Task DropAsync(int row, int column)
    {
        if (carried is not { } from)
            return;
        carried = null;
        Point(from.Row, from.Column);
        await MoveAsync(row - from.Row, column - from.Column);
    }

    /// <summary>Along its row as it is; on another string the fret follows, so that the pitch stays; a note of the tune by half steps.</summary>
    private async Task MoveAsync(int down, int right)
    {
        if (Sign is not { } sign || (down, right) == (0, 0))
            return;
        var (from, column) = (Place, cursor.Column + right);
        var row = At.Part == SongPart.Tune ? cursor.Row : cursor.Row + down;
        if (row < 0 || row >= grid.Rows.Length || grid.Rows[row].Part != At.Part || column < 0 || column >= grid.Columns)
            trouble = "A note moves within its bar and its own rows.";
        else if ((row, column) != cursor && grid.Rows[row].Cells[column].Sign is not null)
            trouble = "Something stands there already; take it away first.";
        else if (Moved(sign, row, down) is not { } moved)
            trouble = $"{grid.Rows[row].Label} has no such pitch.";
        else if (await DecideAsync($"bar {Bar}: {sign} moved", d => Put(d.WithNothing(from), PlaceOf(row, column), moved)))
            Point(row, column);
    }

    private string? Moved(string sign, int row, int down)
    {
        if (At.Part == SongPart.Tune && TuneNote.TryParse(sign, out var sung))
            return $"{sung with { Pitch = Pitch.FromMidi(sung.Pitch.Midi - down, View.Song.KeyAt(Bar).Centre) }}";
        if (At.Part != SongPart.Pick || grid.Rows[row].StringIndex == At.StringIndex || PickedText.Read(sign, At.StringIndex).Note is not { } note)
            return sign;
        var (neck, to) = (new Fretboard(View.Song.Tuning.Value, View.Song.Capo.Value), grid.Rows[row].StringIndex);
        var fret = note.IsMuted ? 0 : neck.MidiAt(At.StringIndex, note.Fret) - neck.MidiAt(to, 0);
        return fret >= 0 && fret <= neck.LastFret(to) && note.CanMoveTo(fret) ? PickedText.Of(note.MovedTo(to, fret)) : null;
    }

    private async Task<bool> DecideAsync(string what, Func<SongDocument, SongDocument> edit)
    {
        trouble = "";
        var decided = await Desk.DecideAsync(what, edit);
        focusing = true;
        return decided;
    }

    private Task HearAsync() =>
        OnHear.InvokeAsync($"/sounds/own?song={Uri.EscapeDataString(SongId)}&first={Bar}&last={Bar}&version={View.Version}");

    private NotePlace PlaceOf(int row, int column) => new(grid.Rows[row].Part, Bar, grid.At(column), grid.Rows[row].StringIndex);

    private int ColumnOf(UnwrittenNote note) => (int)Math.Round(note.At.Value * grid.Divisions);

    private string PitchOf(UnwrittenNote note) => Pitch.FromMidi(note.Note.Midi, View.Song.KeyAt(Bar).Centre).ToString();

    private string Look(int row, int column, NoteCell cell) => string.Join(' ', new[]
    {
        column % grid.Divisions == 0 ? "beat" : null,
        (row, column) == cursor ? "at" : null,
        cell.Rings ? "rings" : null,
        cell.Sign is null ? null : cell.Standing?.Kind == StandingKind.Heard ? "heard" : "said",
        cell.Sign is null && cell.Heard is not null ? "unwritten" : null,
    }.OfType<string>());

    private string Spoken(NoteRow row, int column, NoteCell cell) => $"{row.Label}, {grid.Spoken(column)}: " + (cell.Sign is { } sign
        ? string.Join(", ", NoteSign.Of(row.Part, sign).Where(s => s.IsOn).Select(s => s.Name).Prepend(sign))
            + (cell.Standing?.Kind == StandingKind.Heard ? ", only heard" : "")
        : cell.Heard is { Place: { } place } ? $"nothing written, fret {place.Fret} heard" : cell.Rings ? "rings on" : "nothing");
}
