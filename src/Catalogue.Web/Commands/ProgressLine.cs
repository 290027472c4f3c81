namespace Catalogue.Web.Commands;

/// <summary>One line that says how far a check of a file is, written over itself and wiped away at the end.</summary>
/// <param name="to">Standard error: standard output is for results.</param>
/// <param name="seen">False when nobody looks at it (a file, a pipe): then nothing is written.</param>
internal sealed class ProgressLine(TextWriter to, bool seen, string file)
{
    private int _width;

    public void Report(int percent, string stage) => Write($"{file}: {percent} %, {stage}");

    public void Wipe()
    {
        if (_width == 0) return;
        Write("");
        to.Write('\r');
        _width = 0;
    }

    private void Write(string line)
    {
        if (!seen) return;
        to.Write('\r');
        to.Write(line.PadRight(_width));
        _width = line.Length;
    }
}
