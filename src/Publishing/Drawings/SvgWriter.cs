using System.Globalization;
using System.Text;
using System.Xml;

namespace Harkbook.Publishing.Drawings;

/// <summary>How an SVG holds its text.</summary>
public enum SvgText
{
    /// <summary>As text, pinned to the measured width so that a fallback font cannot overlap its neighbours.</summary>
    Live,

    /// <summary>As outlines: the same everywhere, with no font needed; the words stay as labels.</summary>
    Outlines,
}

/// <summary>A drawing as SVG 1.1.</summary>
public sealed class SvgWriter
{
    private const string Svg = "http://www.w3.org/2000/svg";

    private readonly XmlWriter xml;
    private readonly Palette palette;
    private readonly SvgText text;

    private SvgWriter(XmlWriter xml, Palette palette, SvgText text) => (this.xml, this.palette, this.text) = (xml, palette, text);

    public static string Write(Drawing drawing, Palette palette, SvgText text = SvgText.Live)
    {
        var output = new StringBuilder();
        using (var xml = XmlWriter.Create(output, new() { Indent = true, NewLineChars = "\n", OmitXmlDeclaration = true }))
            new SvgWriter(xml, palette, text).Document(drawing);
        return output.Append('\n').ToString();
    }

    private void Document(Drawing drawing)
    {
        xml.WriteStartElement("svg", Svg);
        Attributes(("width", drawing.Width), ("height", drawing.Height));
        xml.WriteAttributeString("viewBox", $"0 0 {Number(drawing.Width)} {Number(drawing.Height)}");
        xml.WriteAttributeString("role", "img");
        if (drawing.Title.Length > 0)
            xml.WriteElementString("title", Svg, Cleaned(drawing.Title));
        Element("rect", () =>
        {
            Attributes(("width", drawing.Width), ("height", drawing.Height));
            xml.WriteAttributeString("fill", palette[Tint.Paper].ToString());
        });
        foreach (var mark in drawing.Marks)
            Write(mark);
        xml.WriteEndElement();
    }

    private void Write(Mark mark)
    {
        switch (mark)
        {
            case LineMark line:
                Shape("line", line.Pen, ("x1", line.From.X), ("y1", line.From.Y), ("x2", line.To.X), ("y2", line.To.Y));
                break;
            case RectMark rect:
                Shape("rect", rect.Pen, ("x", rect.Box.Left), ("y", rect.Box.Top), ("width", rect.Box.Width), ("height", rect.Box.Height), ("rx", rect.Corner));
                break;
            case CircleMark circle:
                Shape("circle", circle.Pen, ("cx", circle.Centre.X), ("cy", circle.Centre.Y), ("r", circle.Radius));
                break;
            case PathMark path:
                Element("path", () =>
                {
                    xml.WriteAttributeString("d", path.Data);
                    Paint(path.Pen);
                });
                break;
            case TextMark { Text.Length: > 0 } words when text == SvgText.Outlines:
                Outline(words);
                break;
            case TextMark { Text.Length: > 0 } words:
                Live(words);
                break;
            case GroupMark group:
                Group(group);
                break;
        }
    }

    private void Group(GroupMark group)
    {
        if (group.Link is { } link)
        {
            xml.WriteStartElement("a", Svg);
            xml.WriteAttributeString("href", link);
        }
        xml.WriteStartElement("g", Svg);
        var scale = group.Scale == 1 ? "" : $" scale({Number(group.Scale)})";
        xml.WriteAttributeString("transform", $"translate({Number(group.At.X)} {Number(group.At.Y)}){scale}");
        if (group.Label is { } label)
            xml.WriteElementString("title", Svg, Cleaned(label));
        foreach (var mark in group.Marks)
            Write(mark);
        xml.WriteEndElement();
        if (group.Link is not null)
            xml.WriteEndElement();
    }

    private void Live(TextMark mark) => Element("text", () =>
    {
        var (family, weight) = FontBook.Known(mark.Face);
        var generic = mark.Face == Face.Digits ? "monospace" : "sans-serif";
        Attributes(("x", mark.At.X), ("y", mark.At.Y), ("font-size", mark.Size), ("font-weight", weight), ("textLength", mark.Width));
        xml.WriteAttributeString("lengthAdjust", "spacingAndGlyphs");
        xml.WriteAttributeString("font-family", $"'{family}', 'Noto Music', {generic}");
        xml.WriteAttributeString("fill", palette[mark.Tint].ToString());
        xml.WriteAttributeString("xml", "space", null, "preserve");
        xml.WriteString(Cleaned(mark.Text));
    });

    private void Outline(TextMark mark) => Element("path", () =>
    {
        using var outline = FontBook.Shape(mark.Text, mark.Face).Outline(mark.Size, (float)mark.At.X, (float)mark.At.Y);
        xml.WriteAttributeString("d", outline.ToSvgPathData());
        xml.WriteAttributeString("fill", palette[mark.Tint].ToString());
        if ((mark.Says ?? mark.Text) is { Length: > 0 } says)
            xml.WriteAttributeString("aria-label", Cleaned(says));
    });

    private void Shape(string name, Pen pen, params (string Name, double Value)[] places) => Element(name, () =>
    {
        Attributes(places);
        Paint(pen);
    });

    private void Paint(Pen pen)
    {
        xml.WriteAttributeString("fill", pen.Fill is { } fill ? palette[fill].ToString() : "none");
        if (pen.Stroke is { } stroke)
        {
            xml.WriteAttributeString("stroke", palette[stroke].ToString());
            Attributes(("stroke-width", pen.Width));
            xml.WriteAttributeString("stroke-linejoin", "round");
            if (pen.RoundEnds)
                xml.WriteAttributeString("stroke-linecap", "round");
            if (!pen.Dash.IsDefaultOrEmpty)
                xml.WriteAttributeString("stroke-dasharray", string.Join(' ', pen.Dash.Select(Number)));
        }
        if (pen.Opacity != 1)
            Attributes(("opacity", pen.Opacity));
    }

    private void Element(string name, Action content)
    {
        xml.WriteStartElement(name, Svg);
        content();
        xml.WriteEndElement();
    }

    private void Attributes(params (string Name, double Value)[] values)
    {
        foreach (var (name, value) in values)
            xml.WriteAttributeString(name, Number(value));
    }

    /// <summary>XML holds no control characters or lone surrogates; a title may.</summary>
    private static string Cleaned(string text) =>
        string.Concat(text.EnumerateRunes().Where(r => r.Value is 9 or 10 or 13 or >= 32 and not (0xFFFE or 0xFFFF)).Select(r => r.ToString()));

    private static string Number(double value) => Math.Round(value, 3).ToString("0.###", CultureInfo.InvariantCulture);
}
