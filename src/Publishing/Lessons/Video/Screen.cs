namespace Harkbook.Publishing.Lessons.Video;

/// <summary>The picture's measures in pixels: a head, three columns of a stage, the lines of music below.</summary>
internal static class Screen
{
    public const int Width = 1920;
    public const int Height = 1080;
    public const double Edge = 56;
    public const double StageTop = 112;
    public const double ColumnWidth = 540;
    public const double Middle = Width / 2.0;
    public const double LeftMiddle = Edge + ColumnWidth / 2;
    public const double RightMiddle = Width - Edge - ColumnWidth / 2;
}
