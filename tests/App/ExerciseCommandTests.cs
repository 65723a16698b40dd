using Harkbook.App.Tests.Errors;
using Harkbook.Audio.Recordings.Reading;

namespace Harkbook.App.Tests;

/// <summary>Exercises of a song that nobody sings: its strummed bars, its picked ones and a change of chord, each in a folder of its own.</summary>
public sealed class ExerciseCommandTests : IDisposable
{
    private const string Song = "title Far\ntempo 120\nkey C major\nshape C x32010\nshape G 320003\nsection Verse\nchords | C | G |\n"
        + "strum throughout | d du |\nsection Riff\nchords | C |\npick\nE4 | 0 3 |\n";
    private readonly Scene scene = new();

    public ExerciseCommandTests() => scene.File("far.hark", Song);

    // Half and full speed once each: a counted bar and the bars, 2 s a bar at 120 in 4/4, 4 s at half of it; then it dies away.
    [Theory]
    [InlineData("exercise-bars-1-2", 18)]
    [InlineData("exercise-bar-3", 12, "--section", "riff")]
    [InlineData("exercise-C-to-G", 18, "--change", "C", "G")]
    public async Task WhatEveryPupilNeedsIsSoundedSlowToFastAfterACountedBar(string folder, double seconds, params string[] options)
    {
        var ran = await Launch.RunAsync(scene, ["exercise", "far.hark", "--rounds", "1", "--speeds", "50,100", .. options]);
        Assert.True(ran.ExitCode == 0, ran.Error);
        Assert.Contains("0:00  50%, 60 beats a minute", ran.Output, StringComparison.Ordinal);
        Assert.Contains("100%, 120 beats a minute", ran.Output, StringComparison.Ordinal);
        Assert.Equal(["exercise.pdf", "exercise.png", "exercise.svg", "exercise.wav"],
            Directory.GetFiles(scene.PathOf(folder)).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        var sound = await RecordingReader.InspectAsync(scene.PathOf(Path.Combine(folder, "exercise.wav")), TestContext.Current.CancellationToken);
        Assert.InRange(sound.Length.Value, seconds, seconds + 3);
    }

    [Fact]
    public async Task OneExerciseLeavesTheOtherAsItWas()
    {
        await Launch.RunAsync(scene, "exercise", "far.hark", "--rounds", "1", "--speeds", "100");
        var before = scene.Contents;
        await Launch.RunAsync(scene, "exercise", "far.hark", "--rounds", "1", "--speeds", "100", "--change", "C", "G");
        Assert.Subset(scene.Contents.ToHashSet(), before.ToHashSet());
        Assert.Equal(2, Directory.GetDirectories(scene.Root).Length);
    }

    public void Dispose() => scene.Dispose();
}
