using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Songs.Reading;

/// <summary>
/// A pattern as written before the sections: a bar or a few that a section plays over and over. "pattern Rolling | d . d u |" is a strum; one
/// without bars of its own is picked, and its strings follow, a line each.
/// </summary>
/// <param name="Meter">What its bars are written for.</param>
internal sealed record PatternSyntax(LineSyntax Header, string Name, Meter Meter, SongPart Part, ImmutableArray<VoiceLine> Voices);

/// <summary>A line of bars that is one voice of a pattern or of a pick block.</summary>
internal sealed record VoiceLine(LineSyntax Line, Voice Voice, ImmutableArray<BarSyntax> Bars);

/// <summary>The lines of a pattern before they are read.</summary>
internal sealed record PatternLines(LineSyntax Header, List<LineSyntax> Strings);
