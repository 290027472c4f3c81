using System.Buffers;

namespace Catalogue.Geometry.Formats;

/// <summary>Words of a text file, read in blocks: a line may be as long as it likes, a word may not.</summary>
/// <remarks>White space is every byte up to the space; a line ends with CR, LF or both. Not thread-safe.</remarks>
internal sealed class TextScanner : IDisposable
{
    /// <summary>No number and no keyword is longer; a name that is gets cut.</summary>
    private const int LongestWord = 4096;

    private const int BlockBytes = 1 << 17;

    private readonly Stream _stream;
    private readonly bool _backslashJoinsLines;
    private readonly CancellationToken _cancel;
    private readonly byte[] _buffer = ArrayPool<byte>.Shared.Rent(BlockBytes);
    private int _position;
    private int _end;
    private bool _streamEnded;

    public TextScanner(Stream stream, bool backslashJoinsLines, CancellationToken cancel)
    {
        _stream = stream;
        _backslashJoinsLines = backslashJoinsLines;
        _cancel = cancel;
    }

    /// <summary>The line of the last word, from 1.</summary>
    public int Line { get; private set; } = 1;

    public void Dispose() => ArrayPool<byte>.Shared.Return(_buffer);

    /// <summary>The next word wherever it stands; empty at the end of the file. Valid until the next call.</summary>
    public ReadOnlySpan<byte> NextWord() => Next(acrossLines: true);

    /// <summary>The next word of this line; empty at its end, which is not passed. Valid until the next call.</summary>
    public ReadOnlySpan<byte> NextWordOfLine() => Next(acrossLines: false);

    /// <summary>Goes on to the start of the next line, even if a backslash stands before it: in a comment it means nothing.</summary>
    public void SkipComment()
    {
        while (_position < _end || Refill())
        {
            var stop = _buffer.AsSpan(_position, _end - _position).IndexOfAny((byte)'\n', (byte)'\r');
            if (stop < 0)
            {
                _position = _end;
                continue;
            }

            _position += stop;
            PassLineEnd();
            return;
        }
    }

    /// <summary>Goes on to the start of the next line.</summary>
    public void SkipLine()
    {
        while (true)
        {
            if (_position == _end && !Refill()) return;
            var rest = _buffer.AsSpan(_position, _end - _position);
            var stop = rest.IndexOfAny((byte)'\n', (byte)'\r');
            if (stop < 0)
            {
                // A backslash at the very end of the block must still be seen by the line end that follows it.
                _position = _backslashJoinsLines ? _end - 1 : _end;
                if (_position < _end && !RefillKeeping()) _position = _end;
                continue;
            }

            var joined = _backslashJoinsLines && stop > 0 && rest[stop - 1] == (byte)'\\';
            _position += stop;
            PassLineEnd();
            if (!joined) return;
        }
    }

    private ReadOnlySpan<byte> Next(bool acrossLines)
    {
        while (true)
        {
            if (_position == _end && !Refill()) return default;
            var b = _buffer[_position];
            if (b is (byte)'\n' or (byte)'\r')
            {
                if (!acrossLines) return default;
                PassLineEnd();
            }
            else if (b <= (byte)' ')
            {
                _position++;
            }
            else if (b == (byte)'\\' && _backslashJoinsLines && PassJoinedLineEnd())
            {
                // The line goes on.
            }
            else
            {
                return Word();
            }
        }
    }

    private ReadOnlySpan<byte> Word()
    {
        var length = 0;
        while (true)
        {
            while (_position + length < _end && _buffer[_position + length] > (byte)' ') length++;
            if (_position + length < _end || !RefillKeeping()) break;
            if (length > LongestWord) break;
        }

        var word = _buffer.AsSpan(_position, length);
        _position += length;
        if (_backslashJoinsLines && length > 1 && word[^1] == (byte)'\\' && AtLineEnd())
        {
            _position--;
            word = word[..^1];
        }

        return word.Length > LongestWord ? word[..LongestWord] : word;
    }

    private bool AtLineEnd() =>
        _position == _end || _buffer[_position] is (byte)'\n' or (byte)'\r';

    /// <summary>At a backslash: passes it and the line end behind it. False, and nothing passed, when none follows.</summary>
    private bool PassJoinedLineEnd()
    {
        if (_position + 1 == _end && !RefillKeeping())
        {
            _position++;
            return true;
        }

        if (_buffer[_position + 1] is not ((byte)'\n' or (byte)'\r')) return false;
        _position++;
        PassLineEnd();
        return true;
    }

    private void PassLineEnd()
    {
        var first = _buffer[_position++];
        Line++;
        if (first == (byte)'\r' && (_position < _end || Refill()) && _buffer[_position] == (byte)'\n') _position++;
    }

    private bool Refill()
    {
        _position = _end = 0;
        return Fill();
    }

    /// <summary>Moves what is left to the front and reads on behind it. False when nothing more came.</summary>
    private bool RefillKeeping()
    {
        if (_position == 0 && _end == _buffer.Length) return false;
        _buffer.AsSpan(_position, _end - _position).CopyTo(_buffer);
        _end -= _position;
        _position = 0;
        return Fill();
    }

    private bool Fill()
    {
        _cancel.ThrowIfCancellationRequested();
        if (_streamEnded) return false;
        var read = _stream.Read(_buffer, _end, _buffer.Length - _end);
        if (read == 0) _streamEnded = true;
        _end += read;
        return read > 0;
    }
}
