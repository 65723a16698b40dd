using Harkbook.Jobs.Files;

namespace Harkbook.App.Messages;

/// <summary>Thrown by commands for a command line that makes no sense; the message says what would.</summary>
internal sealed class UsageException(string message) : UserException(message);
