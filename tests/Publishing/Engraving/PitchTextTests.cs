using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Accidentals as The Unicode Standard names them: U+266D flat, U+266F sharp.</summary>
public class PitchTextTests
{
    [Theory]
    [InlineData("bVII in D major", "♭VII in D major")]
    [InlineData("Bb is not in it but b3 is", "B♭ is not in it but ♭3 is")]
    [InlineData("F# and F over C#m7b5", "F♯ and F over C♯m7♭5")]
    [InlineData("a bar by B, both blown", "a bar by B, both blown")]
    [InlineData("#iv is not number 3", "♯iv is not number 3")]
    [InlineData("E7#9 and Ebb", "E7♯9 and E♭♭")]
    [InlineData("sounds Ebadd9 or Bbm7, in Eb", "sounds E♭add9 or B♭m7, in E♭")]
    public void NotesWithinWordsAreSigned(string plain, string signed) => Assert.Equal(signed, PitchText.InSentence(plain));
}
